import { expect, test } from "vitest";
import { assessUnit } from "@/lib/assess.ts";
import { fitPools } from "@/lib/assessment/pools.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { asOf, readDemo } from "./demo-fleet.ts";

test("what hangs on a doubtful test: L-207 with its slow-cranked test in full, and without it", async () => {
  const { facts } = await readDemo();
  const index = indexFleet(facts, { asOf });
  const unit = index.units.find((one) => one.unit === "L-207");
  if (unit === undefined) throw new Error("the demo has no L-207");
  const common = { asOf, settings: settingsSchema.parse({}), pools: fitPools(index, asOf) };
  const [weighed, inFull, leftOut] = (["weighed", "in-full", "left-out"] as const).map(
    (doubtful) => assessUnit(index, unit, { ...common, doubtful }).assessment,
  );
  const levels = (of: typeof weighed) => of?.cylinders.map((c) => c.measures.map((m) => m.level));
  expect(levels(inFull)).not.toEqual(levels(leftOut));
  // It was not used at all, so that leaving it out changes nothing.
  expect(leftOut).toEqual(weighed);
});

import { afterAll, beforeAll, expect, it } from "vitest";
import { planAnew } from "@/app/_jobs/plan-anew.ts";
import { recordFacts } from "@/app/_jobs/record-facts.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { inThisThread } from "@/app/_jobs/worker/tasks.ts";
import { whyNotPlanned } from "@/app/_ui/plan/why-not.ts";
import { unitRow } from "@/app/_ui/recording/status-form.ts";
import { type PlanRow, planInForce } from "@/db/plans.ts";
import type { Store } from "@/db/store.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { openDemoStore } from "../jobs/demo-store.ts";
import { act } from "../jobs/made-up-files.ts";

let store: Store;
let row: PlanRow;
const f = formatsOf(plainPreferences);

beforeAll(async () => {
  store = await openDemoStore();
  await planAnew(store, act, {}, inThisThread);
  row = (await planInForce(store)) as PlanRow;
}, 120_000);
afterAll(() => store.close());

it("says which one thing keeps a unit from being planned", async () => {
  expect(await whyNotPlanned(store, row, "V-999", f)).toBe(
    "Nothing can be planned for V-999: no unit of this number is known.",
  );
  // Never tested.
  expect(await whyNotPlanned(store, row, "H-306", f)).toMatch(
    /^Nothing can be planned for H-306: its tests are too few/,
  );
  const [first] = row.plan.bookings;
  const retired = unitRow(first?.unit ?? "", { status: "retired", statusReason: "sold" });
  const kept = await recordFacts(store, { title: "retired", told: { units: [retired] } }, act);
  expect(await whyNotPlanned(store, row, retired.unit, f)).toContain("it is retired");
  await undoImport(store, kept.import, act);
});

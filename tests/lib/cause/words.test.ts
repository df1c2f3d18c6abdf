import { expect, test } from "vitest";
import { togetherWords } from "@/lib/cause/words.ts";
import type { Cause } from "@/lib/schema/words.ts";
import { probabilityWords } from "@/lib/wording.ts";

const shares: { cause: Cause; probability: number }[] = [
  { cause: "exhaust-valve", probability: 0.96 },
  { cause: "rings-or-bore", probability: 0.03 },
];

test("two causes at once: the chance that both are there is told apart from whose fault the loss mostly is", () => {
  const two = { causes: ["rings-or-bore", "exhaust-valve"] as const, probability: 0.65 };
  expect(togetherWords(two, shares, probabilityWords)).toBe(
    "Probably two faults at once: beside the exhaust valve or its seat also the piston rings or the bore; the chance that both are there is 65 %. The shares above tell something else, whose fault the loss mostly is; of that the part of the piston rings or the bore is 3 %.",
  );
  expect(togetherWords({ ...two, probability: 0.3 }, shares, probabilityWords)).toMatch(/^Perhaps two faults at once/);
});

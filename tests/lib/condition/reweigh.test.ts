import { expect, test } from "vitest";
import { reweighed } from "@/lib/condition/reweigh.ts";
import { conditioned, every10000 } from "./histories.ts";

const weightsOf = (engine: ReturnType<typeof conditioned>) => engine.tests.map((t) => t.weights[0]);

test("doubtful tests in full, or left out; repeats and what a person said stay", () => {
  const tests = every10000([
    [7, 8, 7, 8],
    [7, 8, 7, 8],
    [7, 8, 7, 8],
    [7, 8, 7, 8],
  ]);
  const by = { by: "A. Fitter", reason: "seen", cylinder: null };
  const engine = conditioned({
    tests: [
      ...tests.map((t, i) => (i === 1 ? { ...t, setUp: { gaugeZeroed: false } } : t)),
      { ...tests[2], x: 70_000, values: [7, 8, 7, 8], attempt: 2 },
      { x: 95_000, values: [7, 8, 7, 8], setUp: { warm: false }, judgements: [{ ...by, verdict: "accepted" }] },
      { x: 97_000, values: [7, 8, 7, 8], judgements: [{ ...by, verdict: "set-aside" }] },
    ],
  });
  expect(weightsOf(engine)).toEqual([1, 0.25, 0, 1, 1, 1, 0]);
  expect(reweighed(engine, "weighed")).toBe(engine);
  expect(weightsOf(reweighed(engine, "in-full"))).toEqual([1, 1, 0, 1, 1, 1, 0]);
  expect(weightsOf(reweighed(engine, "left-out"))).toEqual([1, 0, 0, 1, 1, 1, 0]);
});

import { expect, test } from "vitest";
import { countBrowserTests, countUnitTests, sum, trusting } from "../../../cli/testing/counts.mjs";
import { summary } from "../../../cli/testing/summary.mjs";

const tests = (...statuses: string[]) => statuses.map((status) => ({ status }));

test("unit tests are counted by the folder that they lie in", () => {
  const testResults = [
    { name: "/t/lib/sealing/a.test.ts", status: "passed", assertionResults: tests("passed", "passed", "skipped") },
    { name: "/t/lib/b.test.ts", status: "failed", assertionResults: tests("failed", "passed", "todo") },
    { name: "/t/db/c.test.ts", status: "passed", assertionResults: tests("passed") },
  ];
  expect([...countUnitTests({ testResults }, "/t")]).toEqual([
    ["lib", { passed: 3, failed: 1, skipped: 2 }],
    ["db", { passed: 1, failed: 0, skipped: 0 }],
  ]);
});

test("a test file that cannot be loaded counts as a failure", () => {
  const testResults = [{ name: "/t/lib/a.test.ts", status: "failed", assertionResults: [] }];
  expect([...countUnitTests({ testResults }, "/t")]).toEqual([["lib", { passed: 0, failed: 1, skipped: 0 }]]);
});

test("a browser test that passed only when repeated has failed, and so has an error outside any test", () => {
  const stats = { expected: 5, unexpected: 1, flaky: 1, skipped: 2 };
  expect(countBrowserTests({ stats, errors: [{}] })).toEqual({ passed: 5, failed: 3, skipped: 2 });
});

test.each([
  ["all passed", { passed: 3, failed: 0, skipped: 0 }, 0, 0],
  ["a bad exit without a failed test", { passed: 3, failed: 0, skipped: 0 }, 1, 1],
  ["no test at all", { passed: 0, failed: 0, skipped: 0 }, 0, 1],
  ["failures as reported", { passed: 3, failed: 2, skipped: 0 }, 1, 2],
])("%s: the failures that count", (_title, counts, status, failed) => {
  expect(trusting(counts, status).failed).toBe(failed);
});

test("the summary has a line for each step and closes with the total alone on the last line", () => {
  const lines = [
    { name: "types", counts: { passed: 1, failed: 0, skipped: 0 }, seconds: 4.2 },
    { name: "unit tests", counts: { passed: 20, failed: 2, skipped: 0 } },
  ];
  expect(summary(lines).split("\n")).toEqual([
    " ok   types       1 passed, 0 failed  (4 s)",
    "FAIL  unit tests  20 passed, 2 failed",
    "",
    "21 passed, 2 failed",
  ]);
});

test("skipped tests are told only where there are any", () => {
  const lines = [{ name: "a", counts: { passed: 1, failed: 0, skipped: 3 } }];
  expect(summary(lines).split("\n").at(-1)).toBe("1 passed, 0 failed, 3 skipped");
  expect(sum([])).toEqual({ passed: 0, failed: 0, skipped: 0 });
});

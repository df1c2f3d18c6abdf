import { expect, it } from "vitest";
import { leastOf, notBooking, waitWords } from "@/app/_ui/plan/wait-words.ts";
import { canWait, costOfLeaving } from "@/lib/plan/can-wait.ts";
import { totalOf } from "@/lib/plan/types.ts";
import { need, never, planUnit, problemOf, topEnd } from "../../lib/plan/problem.ts";

const asOf = "2026-09-07";
const told = (of: ReturnType<typeof need>) => {
  const problem = problemOf([planUnit("V-1", { needs: [of], works: [topEnd] })]);
  const weeks = canWait(problem, "V-1");
  return { weeks, left: notBooking(costOfLeaving(problem, "V-1"), "top-end"), asOf };
};

it("says of a sound unit that not booking is best, and counts its weeks against that", () => {
  const sound = told(never("topEnd"));
  expect(waitWords(String, sound)).toMatch(
    /^Not booking it is best: that costs \d.* its repair after the plan counted in\. Its cheapest week, .* more/,
  );
  const [cheapest] = sound.weeks.toSorted((a, b) => totalOf(a.cost) - totalOf(b.cost));
  expect(
    totalOf(cheapest?.cost ?? { work: 0, downtime: 0, early: 0, late: 0 }) - leastOf(sound.weeks, sound.left),
  ).toBeGreaterThan(100_000);
});

it("says of a unit that falls due what not booking costs more than its cheapest week", () => {
  expect(waitWords(String, told(need("topEnd", 20, 3)))).toMatch(
    /^Cheapest in week\u00a0\d+.* at \d.*; not booking it within the plan costs \d/,
  );
});

import { expect, it } from "vitest";
import { chanceAt } from "@/app/_ui/unit/past-limit-rows.ts";

const months = [
  { date: "2026-08-31", topEnd: 0, bottomEnd: 0 },
  { date: "2026-09-30", topEnd: 0.2, bottomEnd: 0.1 },
  { date: "2026-10-31", topEnd: 0.4, bottomEnd: 0.1 },
];

it("the chance at a date is that of its month, or of the month before where it lies between two", () => {
  expect(chanceAt(months, "2026-09-30")).toMatchObject({ topEnd: 0.2, bottomEnd: 0.1 });
  expect(chanceAt(months, "2026-10-30")).toMatchObject({ topEnd: 0.2 });
  expect(chanceAt(months, "2027-10-30")).toMatchObject({ topEnd: 0.4 });
  expect(chanceAt(months, "2026-08-01")).toEqual({ topEnd: 0, bottomEnd: 0 });
});

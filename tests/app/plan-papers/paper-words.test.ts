import { expect, it } from "vitest";
import { contingencyWords, notBookedWords, reckonedWords } from "@/app/_ui/plan-papers/paper-words.ts";
import { workshopSchema } from "@/lib/schema/workshop.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { keptBooking } from "../../lib/plan/bookings.ts";

const f = formatsOf(plainPreferences);
const workshop = workshopSchema.parse({
  currency: "EUR",
  priceDate: "2026-08-31",
  labourGrowthPercent: 10,
  partsGrowthPercent: 10,
});
const plan = { firstMonday: "2026-08-31", currency: "EUR" };
const row = { workshop, asOf: "2026-08-31", plan } as Parameters<typeof reckonedWords>[2];
// A year on, at 10 % a year: 1,700 has become 1,870.
const booking = keptBooking({ start: "2027-08-31" });

it("says how the plan's amount and the expected one of its week hang together", () => {
  const says = reckonedWords(f, booking, row);
  expect(says).toContain(f.money(170_000, "EUR"));
  expect(says).toContain(`at the prices of ${f.date("2026-08-31")}, whichever the week; grown to its week, `);
  expect(says).toContain(f.money(187_000, "EUR").slice(0, 6));
  expect(reckonedWords(f, keptBooking({ start: "2026-08-31" }), row)).toContain("the same in its week");
});

it("tells the contingency by the setting in force, of what is expected in its week", () => {
  const at = (contingencyPercent: number) =>
    contingencyWords(f, keptBooking({ start: "2026-08-31" }), { row, limits: { workshop: { contingencyPercent } } });
  expect(at(15)).toContain(`${f.money(25_500, "EUR")}, ${f.percent(15, 0)} of what the work is expected to cost`);
  expect(at(30)).toContain(f.money(51_000, "EUR"));
});

it("says of a unit without a booking who dropped it, and not that the same waits for a test", () => {
  const waiting = [
    { unit: "V-104", of: "topEnd", chance: 0.7 },
    { unit: "V-104", of: "bottomEnd", chance: 0.4 },
  ] as const;
  const plan = { notFitted: [], waiting, leftOut: [], currency: "XXX", weeks: 52 };
  const told = (dropped: Parameters<typeof notBookedWords>[2]["dropped"]) =>
    notBookedWords(f, "V-104", { plan, made: null, dropped });
  expect(told([])).toContain("Top-end: 70");
  const words = told([
    { unit: "V-104", scope: "top-end", by: "A. Planner" },
    { unit: "V-105", scope: "bottom-end", by: "A. Planner" },
  ]);
  expect(words).toMatch(/^Top-end repair: dropped by A. Planner/);
  expect(words).not.toContain("Top-end: 70");
  expect(words).toContain("Bottom-end: 40");
});

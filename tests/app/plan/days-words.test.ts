import { expect, it } from "vitest";
import { daysWords } from "@/app/_ui/plan/days-words.ts";
import { worksOf } from "@/lib/plan/works-of.ts";
import { workshopSchema } from "@/lib/schema/workshop.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const workshop = workshopSchema.parse({});
const { anyDepot } = workshop;

const bottomEnd = (labourHours: number, downtimeDays: number) => {
  const repairs = { bottomEnd: { labourHours, parts: 1, downtimeDays, unplannedFactor: 2 } };
  const [work] = worksOf({ id: "diesel-6-a", repairs } as never, anyDepot, workshop);
  if (work === undefined) throw new Error("no work");
  return work;
};

it("says why a unit is off the road for longer than its engine model tells", () => {
  // 84 h by one builder at 6 h a day: 14 working days, with two weekends 18.
  const work = bottomEnd(84, 16);
  expect([work.bayDays, work.daysOff]).toEqual([14, 18]);
  expect(daysWords(f, work, anyDepot)).toBe(
    `Its 84\u00a0h take 1 who builds bottom ends at 6\u00a0h a day each 14 working days, ${f.days(18)} off the road with the days between on which nobody works, whatever fewer its engine model tells.`,
  );
});

it("says nothing where the model's days hold", () => {
  expect(daysWords(f, bottomEnd(30, 16), anyDepot)).toBe("");
});

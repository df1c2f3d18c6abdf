import { describe, expect, test } from "vitest";
import type { DueWhileClosed } from "../../../app/_ui/fleet/depot-weeks.ts";
import { fleetFinding, rowsInWords } from "../../../app/_ui/fleet/finding.ts";
import type { FleetCounts } from "../../../lib/schema/report.ts";
import { formatsOf } from "../../../lib/viewing/formats.ts";
import { plainPreferences } from "../../../lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);

interface Given {
  readonly past?: number;
  readonly plan?: number;
  readonly soon?: number;
  readonly watch?: number;
  readonly sound?: number;
  readonly never?: number;
  readonly overdue?: number;
  readonly questions?: number;
}

function counts({
  past = 0,
  plan = 0,
  soon = plan,
  watch = 0,
  sound = 0,
  never = 0,
  overdue = 0,
  questions = 0,
}: Given): FleetCounts {
  const byBand = { sound, watch, plan, "past-limit": past };
  return { all: past + plan + watch + sound + never, byBand, planSoon: soon, neverTested: never, overdue, questions };
}
const finding = (given: Given, more: { months?: number; part?: string; whileClosed?: DueWhileClosed[] } = {}) =>
  fleetFinding({
    f,
    counts: counts(given),
    fleet: 40,
    part: more.part ?? "",
    leadTimeMonths: more.months ?? 12,
    whileClosed: more.whileClosed ?? [],
  });

describe("the Fleet's finding", () => {
  test("past and plan together, one and many", () => {
    expect(finding({ past: 1, plan: 5, sound: 9 })).toBe(
      "One unit is past its limit; five units likely need a repair within a year.",
    );
    expect(finding({ past: 2, plan: 1 })).toBe(
      "Two units are past their limits; one unit likely needs a repair within a year.",
    );
  });

  test("past alone says that no other is pressing", () =>
    expect(finding({ past: 1, sound: 3 })).toBe("One unit is past its limit; no other needs a repair planned."));

  test("plan alone says that none is past its limit", () => {
    expect(finding({ plan: 1, sound: 3 })).toBe(
      "One unit likely needs a repair within a year; none is past its limit.",
    );
    expect(finding({ plan: 14 })).toBe("14 units likely need a repair within a year; none is past its limit.");
  });

  test("what is at plan by its level alone is not told as due within the lead time", () => {
    expect(finding({ past: 1, plan: 8, soon: 4 })).toBe(
      "One unit is past its limit; eight units are at plan, of which four likely need a repair within a year and the others later, if at all.",
    );
    expect(finding({ plan: 2, soon: 1 })).toBe(
      "Two units are at plan, of which one likely needs a repair within a year and one later, if at all; none is past its limit.",
    );
    expect(finding({ plan: 1, soon: 0 })).toBe(
      "One unit is at plan, with no repair likely within a year; none is past its limit.",
    );
  });

  test("watch alone", () => {
    expect(finding({ watch: 1, sound: 3 })).toBe("No unit needs a repair planned; one is on watch.");
    expect(finding({ watch: 8 })).toBe("No unit needs a repair planned; eight are on watch.");
  });

  test("all sound counts the tested ones only", () => {
    expect(finding({ sound: 39, never: 1 })).toBe("Nothing stands out in the 39 units tested.");
    expect(finding({ sound: 1 })).toBe("Nothing stands out in the one unit tested.");
  });

  test("none tested", () => {
    expect(finding({ never: 3 })).toBe("None of the three units was ever tested.");
    expect(finding({ never: 1 })).toBe("The one unit was never tested.");
    expect(finding({})).toBe("No units yet.");
  });

  test("the lead time of the settings is told", () => {
    expect(finding({ plan: 2 }, { months: 6 })).toContain("within six months;");
    expect(finding({ plan: 2 }, { months: 24 })).toContain("within two years;");
  });

  test("repairs that fall into closed weeks are told by depot", () => {
    const at = (depot: string, units: number): DueWhileClosed => ({ depot, units });
    const told = (plan: number, ...whileClosed: DueWhileClosed[]) => finding({ plan, sound: 9 }, { whileClosed });
    expect(told(5, at("Highcol", 2))).toMatch(/\. At Highcol two of them fall due while the depot is closed\.$/);
    expect(told(5, at("Highcol", 1))).toMatch(/\. At Highcol one of them falls due while the depot is closed\.$/);
    expect(told(1, at("Highcol", 1))).toMatch(
      /\. The likely date of that repair falls into the closed weeks of Highcol\.$/,
    );
    expect(told(5, at("Highcol", 2), at("Midfell", 1))).toMatch(
      /\. At Highcol two and at Midfell one of them fall due while the depot is closed\.$/,
    );
    expect(told(9, at("A", 2), at("B", 1), at("C", 1), at("D", 1))).toMatch(
      /\. At four depots five of them fall due while the depot is closed\.$/,
    );
    expect(told(5)).not.toContain("closed");
  });

  test("a part of the fleet is named before what is found in it", () => {
    expect(finding({ past: 1, sound: 3 }, { part: "Highcol" })).toBe(
      "Highcol: one unit is past its limit; no other needs a repair planned.",
    );
    expect(finding({}, { part: "“no such”" })).toBe("None of the 40 units matches “no such”.");
  });

  test("open matters make a second sentence", () => {
    expect(finding({ sound: 9, overdue: 1 })).toMatch(/ One unit has no recent test\.$/);
    expect(finding({ sound: 9, questions: 3 })).toMatch(/ Three units wait for an answer\.$/);
    expect(finding({ sound: 9, overdue: 4, questions: 1 })).toMatch(
      / Four units have no recent test and one waits for an answer\.$/,
    );
  });
});

describe("rows in words", () => {
  test("first and last of the page, and the total", () => {
    expect(rowsInWords({ page: 1, pageSize: 25 }, 40, f)).toBe("Units 1–25 of 40");
    expect(rowsInWords({ page: 2, pageSize: 25 }, 40, f)).toBe("Units 26–40 of 40");
    expect(rowsInWords({ page: 1, pageSize: 25 }, 1, f)).toBe("Unit 1 of 1");
  });
});

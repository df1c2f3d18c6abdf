import { describe, expect, test } from "vitest";
import { findingOf } from "@/lib/assessment/finding.ts";
import { isNoRepairDue, soldBeforeWords, togetherWords } from "@/lib/assessment/together.ts";
import { reportUnit } from "@/lib/report.ts";
import type { UnitAssessment } from "@/lib/schema/assessment.ts";
import { repairFact, unitFact } from "../sealing/facts.ts";
import { asOf, crossing, cylinder, leakage, unitOf } from "./documents.ts";
import { assessedUnit, halfYearly, settings, worn } from "./made-up-fleet.ts";

const told = (changes: Partial<UnitAssessment>): UnitAssessment =>
  unitOf([cylinder(1, [leakage(22, { band: "plan" })], ["exhaust-valve", 0.82])], {
    repairs: {
      topEnd: crossing("projected", ["2027-03-04", "2027-06-20", "2027-09-30"]),
      bottomEnd: crossing("projected", ["2028-03-04", "2028-06-20", null]),
    },
    ...changes,
  });

describe("both together", () => {
  test("from an even chance on, with why", () => {
    const of = (first: "topEnd" | "bottomEnd", probability: number) =>
      togetherWords(told({ bothTogether: { first, months: 18, probability } }), asOf);
    expect(of("topEnd", 0.5)).toBe(
      "Both together: the top-end repair is likely in Jun 2027, and the chance that a bottom-end one is due within 18 months of it is 50 %. A bottom-end repair contains a top-end one, so the head would come off twice; a top-end repair does not reset ring wear, which may show more once the valves are tight.",
    );
    expect(of("bottomEnd", 0.9)).toContain("the bottom-end repair is likely in Jun 2028");
    expect(of("bottomEnd", 0.9)).toContain("A bottom-end repair contains a top-end one: valves");
    expect(of("topEnd", 0.49)).toBeNull();
    expect(togetherWords(told({ bothTogether: null }), asOf)).toBeNull();
    expect(togetherWords(told({}), asOf)).toBeNull();
  });

  test("both past their limits are due now", () => {
    const now = crossing("crossed", [asOf, asOf, asOf]);
    const bothTogether = { first: "bottomEnd", months: 18, probability: 1 } as const;
    expect(togetherWords(told({ repairs: { topEnd: now, bottomEnd: now }, bothTogether }), asOf)).toContain(
      "both classes of repair are due now",
    );
  });

  test("of a whole unit hang on the chosen span, and end where nothing is foreseen or the unit stands", () => {
    // A valve job of one cylinder, never tested since: its ring wear carries on beside the wear of the others.
    const tests = halfYearly(worn(6, 12, 2.4));
    const within = (togetherMonths: number) =>
      assessedUnit({ units: [unitFact()], tests }, { settings: { ...settings, togetherMonths } }).assessment
        .bothTogether;
    const [short, long] = [within(3), within(36)];
    expect(short).toMatchObject({ months: 3 });
    expect(long?.first).toBe(short?.first);
    expect(long?.probability).toBeGreaterThanOrEqual(short?.probability ?? 1);
    expect(assessedUnit({ units: [unitFact({ status: "stopped" })], tests }).assessment.bothTogether).toBeNull();
    const sound = assessedUnit({ units: [unitFact()], tests: halfYearly(worn(6, 6, 0)) });
    expect(sound.assessment.bothTogether).toBeNull();
  });

  test("a repair of the past is no ground for one of the future", () => {
    const repaired = assessedUnit({
      units: [unitFact()],
      tests: halfYearly(worn(6, 12, 2.4)),
      repairs: [repairFact({ date: "2026-06-10", meter: 100_100, scope: "complete", cylinders: "all" })],
    });
    expect(repaired.assessment.bothTogether).toBeNull();
  });
});

describe("what lies after the planned disposal", () => {
  const repairs = told({}).repairs;
  const sold = (date: string, topEnd: boolean, bottomEnd: boolean) =>
    told({ repairs, soldBefore: { date, topEnd, bottomEnd } });

  test("is told as sold before, and no overhaul is asked for", () => {
    const before = sold("2027-05-31", true, true);
    expect(soldBeforeWords(before)).toBe(
      "Sold before: planned for disposal on 31 May 2027, ahead of the likely date of a top-end repair (Jun 2027) and of a bottom-end repair (Jun 2028); no overhaul is asked for.",
    );
    expect(isNoRepairDue(before)).toBe(true);
    expect(findingOf(before, asOf)).toContain("Sold before: planned for disposal on 31 May 2027");
    expect(findingOf(before, asOf)).not.toContain("likely between");
  });

  test("is left out for the class that comes later alone, where the other comes first", () => {
    const between = sold("2027-12-31", false, true);
    expect(soldBeforeWords(between)).toContain("; no bottom-end repair is asked for.");
    expect(isNoRepairDue(between)).toBe(false);
    expect(findingOf(between, asOf)).toContain("Top-end repair likely between Mar 2027 and Sep 2027");
    expect(soldBeforeWords(sold("2029-12-31", false, false))).toBeNull();
    expect(soldBeforeWords(told({ soldBefore: null }))).toBeNull();
  });

  // 2.4 points each half year, now at 24 of 30 %: some years to go.
  const tests = halfYearly(worn(6, 8, 2));
  const until = (disposalDate: string | null) => assessedUnit({ units: [unitFact({ disposalDate })], tests });

  test("moves no date of a window, but raises no band by its chance and asks for no repair", () => {
    const kept = until(null);
    const soon = until("2026-07-31");
    expect(kept.assessment.soldBefore).toBeNull();
    expect(soon.assessment.repairs).toEqual(kept.assessment.repairs);
    expect(soon.assessment.soldBefore).toMatchObject({ date: "2026-07-31" });
    expect(isNoRepairDue(soon.assessment)).toBe(true);
    expect(soon.assessment.bothTogether).toBeNull();
    const titles = reportUnit(soon).next.map((step) => step.title);
    expect(titles).toContain("Plan no overhaul");
    expect(titles).not.toContain("Plan the repair");
  });

  test("a plan whose day has passed with the unit still here ends nothing", () => {
    const passed = until("2026-06-01");
    expect(passed.assessment.soldBefore).toBeNull();
    expect(passed.assessment.bothTogether).toEqual(until(null).assessment.bothTogether);
  });
});

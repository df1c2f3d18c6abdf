import { describe, expect, test } from "vitest";
import { findingOf, howSureOf, placeOf } from "@/lib/assessment/finding.ts";
import type { Crossing, UnitAssessment } from "@/lib/schema/assessment.ts";
import { asOf, compression, crossing, cylinder, leakage, unitOf } from "./documents.ts";

const soundFour = [1, 2, 3, 4].map((number) => cylinder(number, [leakage(6)]));
const finding = (unit: UnitAssessment) => findingOf(unit, asOf);

/** A four-cylinder unit to plan for by cylinder 3, with these windows. */
function planned(repairs: Partial<UnitAssessment["repairs"]>, changes: Partial<UnitAssessment> = {}): UnitAssessment {
  const third = cylinder(3, [leakage(22, { band: "plan" })], ["exhaust-valve", 0.82]);
  return unitOf([...soundFour.slice(0, 2), third, ...soundFour.slice(3)], {
    repairs: { topEnd: crossing("not-foreseen"), bottomEnd: crossing("not-foreseen"), ...repairs },
    ...changes,
  });
}
const windowOf = (...dates: (string | null)[]): Crossing =>
  crossing(dates[0] == null ? "not-foreseen" : "projected", dates);
/** The first sentence: what it says of a top-end window of these dates. */
const said = (...dates: (string | null)[]) => finding(planned({ topEnd: windowOf(...dates) })).split(". ")[0];

const doubt = {
  measure: "leak-down" as const,
  cylinder: 2,
  words: "Last leak-down test, cylinder 2 at 96 % beside normal compression; measure again",
};
const place3 = "Cylinder 3, probably the exhaust valve or seat (82 %): leakage 22 %, limit 30.";

describe("the finding's windows", () => {
  test("three quantiles far apart are told by month", () =>
    expect(said("2027-03-04", "2027-06-20", "2027-09-30")).toBe(
      "Top-end repair likely between Mar 2027 and Sep 2027, most likely Jun 2027",
    ));

  test("a range under 70 days is told by day, one of 70 by month", () => {
    expect(said("2027-03-01", "2027-04-02", "2027-05-09")).toBe(
      "Top-end repair likely between 1 Mar 2027 and 9 May 2027, most likely 2 Apr 2027",
    );
    expect(said("2027-03-01", "2027-04-02", "2027-05-10")).toBe(
      "Top-end repair likely between Mar 2027 and May 2027, most likely Apr 2027",
    );
  });

  test("a range of one single day is that day", () =>
    expect(said("2027-03-01", "2027-03-01", "2027-03-01")).toBe("Top-end repair likely on 1 Mar 2027"));

  test("a range that begins today begins now", () =>
    expect(said(asOf, "2026-11-02", "2027-09-30")).toBe(
      "Top-end repair likely between now and Sep 2027, most likely Nov 2026",
    ));

  test("without a late end", () =>
    expect(said("2027-03-04", "2028-06-20", null)).toBe(
      "Top-end repair likely in Jun 2028, hardly before Mar 2027; no late end yet",
    ));

  test("from today, without a late end: nothing is before now", () =>
    expect(said(asOf, "2028-06-20", null)).toBe("Top-end repair likely in Jun 2028, perhaps now; no late end yet"));

  test("without a likely date", () => {
    expect(said("2030-03-04", null, null)).toBe(
      "Top-end repair hardly before Mar 2030; the likely date lies beyond the horizon",
    );
    expect(said(asOf, null, null)).toBe("Top-end repair may be due now, but more likely lies beyond the horizon");
  });

  test("likely due now, with and without a late end", () => {
    expect(said(asOf, asOf, "2027-02-03")).toBe("Top-end repair perhaps due now; hardly after Feb 2027");
    expect(said(asOf, asOf, "2026-08-03")).toBe("Top-end repair perhaps due now; hardly after 3 Aug 2026");
    expect(said(asOf, asOf, null)).toBe("Top-end repair perhaps due now; no late end yet");
  });

  test("of two windows the sooner likely date is told, before one that only may be due sooner", () => {
    const [early, late] = [windowOf("2027-01-01", "2027-06-01", null), windowOf("2027-02-01", "2027-09-01", null)];
    expect(finding(planned({ topEnd: late, bottomEnd: early }))).toMatch(/^Bottom-end repair likely in Jun 2027/);
    expect(finding(planned({ topEnd: early, bottomEnd: late }))).toMatch(/^Top-end repair likely in Jun 2027/);
    const onlyEarly = windowOf("2027-06-01", null, null);
    expect(finding(planned({ topEnd: onlyEarly, bottomEnd: early }))).toMatch(/^Bottom-end/);
    expect(finding(planned({ topEnd: onlyEarly, bottomEnd: late }))).toMatch(/^Bottom-end repair likely in Sep 2027/);
    expect(finding(planned({ topEnd: windowOf("2027-01-01", null, null), bottomEnd: onlyEarly }))).toMatch(/^Top-end/);
    expect(finding(planned({ topEnd: early, bottomEnd: early }))).toMatch(/^Top-end/);
  });

  test("a unit that is likelier to need a repair than any of its cylinders says why it is only to watch", () => {
    const unit = planned({ bottomEnd: windowOf("2027-01-01", "2027-06-01", null) });
    const whole = { repair: "bottomEnd", months: 12, probability: 0.34 } as const;
    expect(finding({ ...unit, asAWhole: whole })).toContain(
      "no late end yet. Some cylinder or other needs the bottom-end repair within 12 months with a chance of 34 %; none is",
    );
    expect(finding(unit)).not.toContain("Some cylinder");
  });

  test("what the class of repair leaves open is told of the limit itself", () => {
    const sooner = windowOf("2026-11-04", "2027-02-20", "2027-10-30");
    const place = cylinder(3, [{ ...leakage(22), crossing: sooner }]);
    const unit = (topEnd: Crossing) =>
      finding(unitOf([place], { repairs: { topEnd, bottomEnd: crossing("not-foreseen") }, band: "watch" }));
    const own =
      " Whichever class of repair that calls for, the cylinder meets its limit likely between Nov 2026 and Oct 2027, most likely Feb 2027.";
    expect(unit(windowOf("2026-11-04", "2027-03-01", null))).toContain(`no late end yet.${own}`);
    expect(unit(windowOf("2026-11-04", null, null))).toContain(`beyond the horizon.${own}`);
    expect(unit(crossing("not-foreseen"))).toContain(`No one class of repair foreseen within the horizon.${own}`);
    expect(unit(windowOf("2026-11-04", "2027-03-01", "2027-12-01"))).not.toContain("Whichever");
  });

  test("the place and its cause follow; of a sound unit the place alone", () => {
    const topEnd = windowOf("2027-03-04", "2027-06-20", "2027-09-30");
    expect(finding(planned({ topEnd }))).toBe(
      `Top-end repair likely between Mar 2027 and Sep 2027, most likely Jun 2027. ${place3}`,
    );
    const sound = unitOf(soundFour, { repairs: { topEnd, bottomEnd: crossing("not-foreseen") } });
    expect(finding(sound)).toMatch(/most likely Jun 2027\. All cylinders: leakage 6 %, limit 30\.$/);
  });

  test("a cause that calls for the other class of repair than the window is told at length", () => {
    const bottomEnd = windowOf("2027-03-04", "2027-06-20", "2027-09-30");
    expect(finding(planned({ bottomEnd }))).toMatch(
      /^Bottom-end repair .+ Cylinder 3: leakage 22 %, limit 30\. Probably the exhaust valve or seat \(82 %\), a top-end repair\.$/,
    );
  });

  test("how fast follows the place, but not of a sound unit", () => {
    const topEnd = windowOf("2027-03-04", "2027-06-20", "2027-09-30");
    const pace = "Leakage doubles every 9,000 km.";
    expect(findingOf(planned({ topEnd }), asOf, pace)).toMatch(/limit 30\. Leakage doubles every 9,000 km\.$/);
    expect(findingOf(planned({}), asOf, pace)).toMatch(/within the horizon\. Leakage doubles every 9,000 km\.$/);
    expect(findingOf(unitOf(soundFour), asOf, pace)).not.toContain("doubles");
  });

  test("a last test in doubt stands between the window and the place, an open question at the end", () => {
    const topEnd = windowOf("2027-03-04", null, null);
    expect(finding(planned({ topEnd }, { inDoubt: [doubt], questions: [doubt.words, "Repaired?"] }))).toBe(
      `Top-end repair hardly before Mar 2027; the likely date lies beyond the horizon. ${doubt.words}. ${place3} A question is open: see below.`,
    );
    expect(finding(planned({ topEnd }, { inDoubt: [doubt], questions: [doubt.words] }))).not.toContain("question");
  });
});

describe("the finding without a window", () => {
  test("never tested", () =>
    expect(finding(unitOf([cylinder(1, [])], { lastTestDate: null }))).toBe(
      "No test yet. A first test gives a baseline; 3 tests give a range.",
    ));

  test("the engine that a swap brought never tested", () => {
    const swapped = unitOf([cylinder(1, [])], { lastTestDate: null, reason: "this engine was never tested" });
    expect(finding(swapped)).toBe("This engine was never tested. A first test gives a baseline; 3 tests give a range.");
    expect(placeOf(swapped).title).toBe("This engine never tested");
  });

  test("no usable test, at all or since the last repair", () => {
    const unused = (reason: string) => unitOf([cylinder(1, [leakage(null)])], { reason });
    expect(finding(unused("no usable test since the last repair"))).toBe(
      "No usable test since the last repair. A test now sets the new baseline.",
    );
    expect(finding(unused("no usable test yet"))).toBe("No usable test yet. A test now sets the baseline.");
    expect(placeOf(unused("no usable test yet")).detail).toBe("none yet");
  });

  test("not foreseen, of a sound unit and of one to watch", () => {
    expect(finding(unitOf(soundFour))).toBe(
      "Nothing stands out: leakage 6 %, limit 30. No repair foreseen within the horizon.",
    );
    expect(finding(planned({}))).toBe("Cylinder 3: leakage 22 %, limit 30. No repair foreseen within the horizon.");
  });

  test("too few tests only where both classes have too few", () => {
    const few = crossing("too-few-tests");
    expect(finding(unitOf(soundFour, { repairs: { topEnd: few, bottomEnd: few } }))).toBe(
      "Nothing stands out: leakage 6 %, limit 30. Too few usable tests for a range; 3 of one life give one.",
    );
    expect(finding(planned({ topEnd: few }))).toMatch(/No repair foreseen within the horizon\.$/);
  });

  test("a sound unit whose last test is in doubt says so first", () =>
    expect(finding(unitOf(soundFour, { inDoubt: [doubt], questions: [doubt.words] }))).toBe(
      `${doubt.words}. Nothing else stands out: leakage 6 %, limit 30. No repair foreseen within the horizon.`,
    ));

  test("an open question is told", () =>
    expect(finding(unitOf(soundFour, { questions: ["Repaired?"] }))).toMatch(
      /horizon\. A question is open: see below\.$/,
    ));
});

describe("the finding of a unit past its limit", () => {
  const past = (cause: Parameters<typeof cylinder>[2], level = 34) =>
    unitOf([...soundFour.slice(1), cylinder(1, [leakage(level, { band: "past-limit" })], cause)], {
      repairs: { topEnd: crossing("crossed", [asOf, asOf, asOf]), bottomEnd: crossing("not-foreseen") },
    });

  test("names the cylinder, the level and the repair; below 0.7 it says perhaps", () => {
    expect(finding(past(["exhaust-valve", 0.7]))).toBe(
      "Past its limit: cylinder 1, leakage 34 %, limit 30. Probably the exhaust valve or seat (70 %), a top-end repair.",
    );
    expect(finding(past(["rings-or-bore", 0.69]))).toMatch(
      /Perhaps the piston rings or bore \(69 %\), a bottom-end repair\.$/,
    );
  });

  test("one that has met it only since its last test is told as probably past it, with what was measured", () => {
    const since = { date: "2026-05-03", level: 28.4 };
    const extrapolated = (number: number, level: number, after?: typeof since) =>
      cylinder(number, [leakage(level, { band: "past-limit", ...(after ? { crossedAfter: after } : {}) })]);
    expect(finding(unitOf([...soundFour.slice(1), extrapolated(1, 30.2, since)]))).toMatch(
      /^Probably past its limit by now: cylinder 1, leakage 30 %, limit 30; last measured 3 May 2026, then at 28 %\. /,
    );
    // Beside one that was read past it nothing is probable.
    expect(finding(unitOf([...soundFour.slice(2), extrapolated(1, 30.2, since), extrapolated(2, 33)]))).toMatch(
      /^Past its limit: cylinders 1 and 2, leakage 30 and 33 %, limit 30\. /,
    );
  });

  test("tells the cylinders past it apart from a neighbour that shares the fault", () => {
    const gasket = (number: number, level: number, band: "past-limit" | "plan") =>
      cylinder(number, [leakage(level, { band })], ["head-gasket", 0.9]);
    const beside = (...past: number[]) =>
      finding(
        unitOf([1, 2, 3, 4].map((n) => (past.includes(n) ? gasket(n, 32, "past-limit") : gasket(n, 29, "plan")))),
      );
    expect(beside(3)).toMatch(
      /^Past its limit: cylinder 3, leakage 32 %, limit 30; cylinders 1, 2 and 4 go with it at 29 %\. Probably the head gasket/,
    );
    expect(beside(1, 2, 3)).toMatch(
      /^Past its limit: cylinders 1 to 3, leakage 32 %, limit 30; cylinder 4 goes with them at 29 %\./,
    );
    expect(beside(1, 2, 3, 4)).toMatch(/^Past its limit: all cylinders, leakage 32 %, limit 30\. /);
  });

  test("says where the other causes together call for the other class of repair", () => {
    const one = {
      ...cylinder(1, [leakage(34, { band: "past-limit" })], ["rings-or-bore", 0.37]),
      topEnd: 0.5,
      bottomEnd: 0.4,
    };
    expect(finding(unitOf([one, ...soundFour.slice(1)]))).toMatch(
      /Perhaps the piston rings or bore \(37 %\); all causes together rather call for a top-end repair \(50 %\)\.$/,
    );
  });

  test("what is probably the test's set-up calls for a test, not a repair", () =>
    expect(finding(past(["test-set-up", 0.5]))).toMatch(
      /Probably the way the test was made: test again before anything is booked\.$/,
    ));

  test("a doubt and a question are told as well", () =>
    expect(finding({ ...past(["piston", 0.8]), inDoubt: [doubt], questions: [doubt.words, "Repaired?"] })).toBe(
      `Past its limit: cylinder 1, leakage 34 %, limit 30. ${doubt.words}. Probably the piston (80 %), a bottom-end repair. A question is open: see below.`,
    ));
});

describe("levels in the finding", () => {
  const told = (...measures: Parameters<typeof cylinder>[1][number][]) =>
    placedIn(finding(unitOf(measures.map((m, i) => cylinder(i + 1, [m])))));
  const placedIn = (sentence: string) => /: (.+?)\. No repair/.exec(sentence)?.[1];

  test("up to three are listed, more become a range, equal ones are told once", () => {
    expect(told(leakage(8), leakage(6), leakage(6.2), leakage(7))).toBe("leakage 6, 7 and 8 %, limit 30");
    expect(told(leakage(8), leakage(6), leakage(9), leakage(7))).toBe("leakage 6 to 9 %, limit 30");
  });

  test("a last reading over 2 points, or 3 % of compression, from its level is told beside it", () => {
    expect(told(leakage(6, { latest: 8 }))).toBe("leakage 6 %, limit 30");
    expect(told(leakage(6, { latest: 8.1 }))).toBe("leakage 6 % (last read 8), limit 30");
    expect(told(leakage(6, { latest: 3.9 }))).toBe("leakage 6 % (last read 4), limit 30");
    expect(told(compression(1000, { latest: 970 }))).toBe("compression 1,000 kPa, minimum 900 kPa");
    expect(told(compression(1000, { latest: 969 }))).toBe("compression 1,000 kPa (last read 969 kPa), minimum 900 kPa");
  });

  test("without a limit none is named", () => {
    expect(told(leakage(6, { limit: null }))).toBe("leakage 6 %");
    expect(told(compression(1000, { limit: null }))).toBe("compression 1,000 kPa");
  });
});

describe("the weakest place in two lines", () => {
  test("nothing to tell from", () => {
    expect(placeOf(unitOf([cylinder(1, [])], { lastTestDate: null }))).toEqual({
      title: "No test yet",
      detail: "book a baseline test",
    });
    expect(placeOf(unitOf([cylinder(1, [leakage(null)])]))).toEqual({
      title: "No usable test",
      detail: "none since the last repair",
    });
  });

  test("a sound unit, and one whose last test is in doubt, of a cylinder or as a whole", () => {
    const detail = "leakage 6 %, limit 30";
    expect(placeOf(unitOf(soundFour))).toEqual({ title: "Nothing stands out", detail });
    expect(placeOf(unitOf(soundFour, { inDoubt: [doubt] }))).toEqual({ title: "Cyl 2, last test in doubt", detail });
    expect(placeOf(unitOf(soundFour, { inDoubt: [{ ...doubt, cylinder: null }] }))).toEqual({
      title: "Last test in doubt",
      detail,
    });
  });

  test("one, some and all cylinders, with what is at fault; the last reading has no room", () => {
    const watch = (number: number) => cylinder(number, [leakage(12, { band: "watch", latest: 16 })], ["piston", 0.5]);
    const detail = "leakage 12 %, limit 30";
    expect(placeOf(unitOf([watch(1), ...soundFour.slice(1)]))).toEqual({ title: "Cyl 1, piston", detail });
    expect(placeOf(unitOf([watch(1), watch(2), ...soundFour.slice(2)]))).toEqual({
      title: "Cyl 1 and 2, piston",
      detail,
    });
    expect(placeOf(unitOf([1, 2, 3, 4].map(watch)))).toEqual({ title: "All cylinders, piston", detail });
    // The one cylinder of an engine is no "all".
    expect(placeOf(unitOf([watch(1)]))).toEqual({ title: "Cyl 1, piston", detail });
  });

  test("without a cause the place alone", () => {
    const one = { ...cylinder(1, [leakage(12, { band: "watch" })]), causes: [] };
    expect(placeOf(unitOf([one])).title).toBe("Cyl 1");
  });
});

describe("how sure", () => {
  const on = { usedTests: 5, setAside: 0, sisters: 3 };

  test("of a unit never tested: what its sisters are worth", () => {
    const never = unitOf([cylinder(1, [])], { lastTestDate: null });
    expect(howSureOf(never, { ...on, sisters: 0 })).toBe("No test of this engine yet, nor of a sister engine.");
    expect(howSureOf(never, { ...on, sisters: 1 })).toMatch(
      /^No test of this engine yet; 1 sister engine was tested, /,
    );
    expect(howSureOf(never, on)).toMatch(/^No test of this engine yet; 3 sister engines were tested, /);
  });

  test("the range is explained only where there is one, of either class", () => {
    const range = "A range from early to late is meant to hold the true date 8 times in 10. ";
    const base = "Based on 5 tests of this engine and 3 sister engines.";
    expect(howSureOf(unitOf(soundFour), on)).toBe(base);
    for (const side of ["topEnd", "bottomEnd"] as const) {
      expect(howSureOf(planned({ [side]: windowOf("2027-03-04", null, null) }), on)).toBe(range + base);
    }
  });

  test("counts in singular and plural, and what was set aside", () => {
    expect(howSureOf(unitOf(soundFour), { usedTests: 1, setAside: 1, sisters: 0 })).toBe(
      "Based on 1 test of this engine. 1 more is kept but not used.",
    );
    expect(howSureOf(unitOf(soundFour), { usedTests: 2, setAside: 2, sisters: 1 })).toBe(
      "Based on 2 tests of this engine and 1 sister engine. 2 more are kept but not used.",
    );
  });
});

describe("a cylinder past the limit by the spread of compressions alone", () => {
  const reason = "970 kPa, 22 % below the highest cylinder (1,240 kPa), 20 % allowed";
  const low = (number: number) =>
    cylinder(number, [leakage(6), compression(970, { limit: 700, band: "past-limit", reason })], ["inlet-valve", 0.5]);
  const others = [1, 2].map((number) => cylinder(number, [leakage(6), compression(1240, { limit: 700 })]));

  test("is told by the spread, in the finding and in the Fleet's row", () => {
    const unit = unitOf([...others, low(3)]);
    expect(finding(unit)).toContain(`Past its limit: cylinder 3, compression ${reason}. `);
    expect(finding(unit)).not.toContain("minimum");
    expect(placeOf(unit).detail).toBe(`compression ${reason}`);
  });

  test("each of several by its own reason; one below the minimum by that", () => {
    const lowest = compression(690, { limit: 700, band: "past-limit", reason: "690 kPa, minimum 700" });
    expect(placeOf(unitOf([...others, low(3), cylinder(4, [lowest], ["inlet-valve", 0.5])])).detail).toBe(
      `cylinder 3: compression ${reason}; cylinder 4: compression 690 kPa, minimum 700`,
    );
    expect(placeOf(unitOf([...others, cylinder(4, [lowest])])).detail).toBe("compression 690 kPa, minimum 700 kPa");
  });
});

import { describe, expect, test } from "vitest";
import { reportUnit } from "@/lib/report.ts";
import type { TestFact } from "@/lib/schema/facts.ts";
import { judgementFact, unitFact } from "../sealing/facts.ts";
import { assessedUnit, dry, halfYearly, leakDown, worn } from "./made-up-fleet.ts";

/** Sisters that say what engines of the model usually do. */
const sisters = Array.from({ length: 6 }, (_, i) => `V-11${i}`);
const units = ["V-101", ...sisters].map((unit) => unitFact({ unit }));
const usual = sisters.flatMap((unit, i) => halfYearly(worn(6, 7 + (i % 3), 0.6), { unit }));
const all = (value: number) => Array(4).fill(value) as number[];

function assessed(tests: readonly TestFact[], judgements: ReturnType<typeof judgementFact>[] = []) {
  const one = assessedUnit({ units, tests: [...usual, ...tests], judgements });
  return { ...one.assessment, report: reportUnit(one) };
}
const level = (of: ReturnType<typeof assessed>, cylinder = 1) => of.cylinders[cylinder - 1]?.measures[0]?.level ?? 0;

describe("a last test that reads far worse than the one or two before it", () => {
  test.each([[[8, 45]], [[8, 8, 45]], [[8, 8, 35]]])(
    "%j of all cylinders: named, to plan, tested again now",
    (values) => {
      const unit = assessed(halfYearly(values.map(all)));
      expect(unit.band).toBe("plan");
      expect(unit.inDoubt.map(({ words }) => words).join()).toMatch(
        /all cylinders read about \d+ %, at the test before, of .+, about 8: a fault that came at once, or the test \(.+\); test again now$/,
      );
      expect(unit.questions).toHaveLength(1);
      expect(unit.report.next[0]?.title).toBe("Repeat the leak-down test of all cylinders");
      expect(unit.report.nextTestDue).toBe("2026-06-30");
      expect(unit.report.finding).toContain("(last read");
      expect(unit.report.doubtfulTests).toBe(1);
    },
  );

  test("one cylinder that may not have stood at top dead centre takes nothing from what the others say", () => {
    const bands = [45, 92].map((last) =>
      assessed(halfYearly([all(8), all(8), [45, 45, 45, last]])).cylinders.map(({ band }) => band),
    );
    expect(bands[0]).toEqual(["plan", "plan", "plan", "plan"]);
    expect(bands[1]?.slice(0, 3)).toEqual(["plan", "plan", "plan"]);
  });

  test("short of the limit it is to watch", () => {
    const unit = assessed(halfYearly([all(8), all(22)]));
    expect(unit.band).toBe("watch");
    expect(unit.reason).toContain("last read 22 %, true with a chance of");
    expect(unit.inDoubt).toHaveLength(1);
  });

  test("compression too", () => {
    const values = [1180, 1175, 830];
    const tests = values.map((value, i) => dry(`202${4 + i}-06-01`, 82_000 + 9000 * i, all(value)));
    const sound = sisters.flatMap((unit) =>
      [1200, 1195, 1190, 1185].map((v, i) => dry(`202${3 + i}-06-01`, 60_000 + 9000 * i, all(v), { unit })),
    );
    const unit = assessed([...sound, ...tests]);
    expect(unit.band).toBe("plan");
    expect(unit.inDoubt[0]?.words).toContain("all cylinders read about 8");
  });

  test("is to watch too where the model's tests scatter so that no step is believed", () => {
    const wild = ["V-101", "V-110", "V-111"].flatMap((unit) =>
      [1180, 1175, 830].map((value, i) => dry(`202${4 + i}-06-01`, 82_000 + 9000 * i, all(value), { unit })),
    );
    const one = assessedUnit({ units: units.slice(0, 3), tests: wild });
    expect(one.assessment.inDoubt[0]?.words).toContain("all cylinders read about 8");
    expect(one.assessment.band).toBe("watch");
    expect(one.assessment.reason).toContain("last read 830 kPa, in doubt by so few tests: test again");
  });

  // A quarter of a point is what the level gives way by while a test goes from a large error to a spoilt one.
  test("the worse it reads the worse the level, with one, two and three tests", () => {
    for (const before of [0, 1, 2]) {
      const levels = [14, 20, 29, 45, 60].map((last) =>
        level(assessed(halfYearly([...Array(before).fill(all(8)), all(last)]))),
      );
      for (const [i, value] of levels.entries()) {
        if (i > 0)
          expect(value, `${before} before, ${levels.join(" ")}`).toBeGreaterThanOrEqual(
            (levels[i - 1] as number) - 0.3,
          );
      }
    }
  });

  test("a next test as bad bears it out, one as good takes it back", () => {
    expect(assessed(halfYearly([8, 45, 44].map(all))).band).toBe("past-limit");
    const back = assessed(halfYearly([8, 8, 45, 8].map(all)));
    expect(back.band).toBe("sound");
    expect(level(back)).toBeLessThan(10);
  });

  test("wear within what tests repeat to is no doubt", () => {
    const unit = assessed(halfYearly([8, 9, 12].map(all)));
    expect([unit.band === "sound" || unit.band === "watch", unit.inDoubt]).toEqual([true, []]);
  });

  test("of a first test one cylinder far above its siblings leaves their levels alone", () => {
    const unit = assessed([leakDown("2026-06-01", 100_000, [8, 45, 8, 8])]);
    expect(level(unit, 1)).toBeLessThan(10);
    expect(level(unit, 2)).toBeGreaterThan(35);
    const heard = level(assessed([leakDown("2026-06-01", 100_000, [8, 60, 8, 8])]), 2);
    expect(heard).toBeGreaterThan(level(unit, 2));
  });
});

describe("an only test", () => {
  test("that stands past the limit is made again before anything is opened", () => {
    const unit = assessed([leakDown("2026-06-01", 100_000, all(45))]);
    expect(unit.band).toBe("past-limit");
    expect(unit.inDoubt).toEqual([
      {
        measure: "leak-down",
        cylinder: null,
        words:
          "Last leak-down test, the only one so far, puts all cylinders past their limit: test again now, before anything is opened",
      },
    ]);
    expect(unit.report.next[0]?.title).toBe("Repeat the leak-down test of all cylinders");
    expect(unit.report.nextTestDue).toBe("2026-06-30");
    const one = assessed([leakDown("2026-06-01", 100_000, [8, 45, 8, 8])]);
    expect(one.inDoubt[0]).toMatchObject({ cylinder: 2 });
  });

  test("that a person accepted, or that is short of the limit, asks for none", () => {
    const accepted = judgementFact({ date: "2026-06-01", verdict: "accepted" });
    expect(assessed([leakDown("2026-06-01", 100_000, all(45))], [accepted]).inDoubt).toEqual([]);
    expect(assessed([leakDown("2026-06-01", 100_000, all(12))]).inDoubt).toEqual([]);
  });
});

describe("a last test that a person accepts", () => {
  const tests = halfYearly([7, 7, 7, 7, 24].map(all));
  const accepted = judgementFact({ date: "2026-06-01", test: "leak-down", verdict: "accepted", cylinder: null });

  test("counts in full: the level goes where it reads", () => {
    const doubted = assessed(tests);
    expect([level(doubted) < 9, doubted.inDoubt.length]).toEqual([true, 1]);
    const believed = assessed(tests, [accepted]);
    expect(level(believed)).toBeGreaterThan(22);
    expect([believed.band, believed.inDoubt]).toEqual(["plan", []]);
  });

  test("with few tests too", () => {
    expect(assessed(halfYearly([8, 45].map(all)), [accepted]).band).toBe("past-limit");
  });
});

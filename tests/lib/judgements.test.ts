import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { testCauses } from "@/lib/changes/test-causes.ts";
import { conditionEngine } from "@/lib/condition/condition.ts";
import { factAssembler } from "@/lib/intake/assemble.ts";
import type { JudgementFact } from "@/lib/schema/facts.ts";
import { assessedUnit, halfYearly, worn } from "./assessment/made-up-fleet.ts";
import { engineHistory, every10000 } from "./condition/histories.ts";
import { csvOf, readChunks, readText } from "./intake/read-text.ts";
import { engineOf, indexed, judgementFact, model, reading, testFact, unitFact, unitOf } from "./sealing/facts.ts";

/** What persons make of tests, through all stages: from the file to the weight and the words. */

const row = {
  unit: "V-101",
  test_date: "2025-01-10",
  test: "leak-down",
  attempt: "1",
  instrument: "",
  cylinder: "",
  verdict: "set-aside",
  reason: "hose leaked",
  judged_by: "W. Lead",
};

describe("files of judgements", () => {
  test("are known by their columns and read as they stand", async () => {
    const { kind, issues, judgements } = await readText(
      csvOf([row, { ...row, cylinder: "3", verdict: "Accepted", instrument: "tester 2", attempt: "" }]),
    );
    expect(kind).toBe("judgements");
    expect(issues).toEqual([]);
    const { file: _file, line: _line, ...first } = judgements[0]!;
    expect(first).toEqual({
      unit: "V-101",
      date: "2025-01-10",
      test: "leak-down",
      attempt: 1,
      instrument: null,
      cylinder: null,
      verdict: "set-aside",
      reason: "hose leaked",
      judgedBy: "W. Lead",
    });
    expect(judgements[1]).toMatchObject({ cylinder: 3, verdict: "accepted", instrument: "tester 2", attempt: 1 });
  });

  test.each([
    ["reason", ""],
    ["reason", " - "],
    ["judged_by", ""],
    ["verdict", "perhaps"],
    ["cylinder", "17"],
    ["test_date", "2026-02-30"],
  ])("%s may not be %j", async (column, value) => {
    const { judgements, issues } = await readText(csvOf([{ ...row, [column]: value }]));
    expect(judgements).toEqual([]);
    expect(issues).toMatchObject([{ severity: "refused", column }]);
  });

  test("that a fault had begun, or none, is said of a cylinder and never of a whole test", async () => {
    for (const verdict of ["fault", "no-fault"]) {
      const { judgements, issues } = await readText(
        csvOf([
          { ...row, verdict },
          { ...row, verdict, cylinder: "2" },
        ]),
      );
      expect(judgements).toMatchObject([{ cylinder: 2, verdict }]);
      expect(issues).toMatchObject([{ severity: "refused", code: "cell-missing", column: "cylinder", line: 2 }]);
    }
  });

  async function assembled(rows: readonly Readonly<Record<string, string>>[]) {
    const known = { models: new Map([["petrol-4-a", model()]]), units: new Map(), today: null };
    const assembler = factAssembler(known);
    const units = csvOf([{ unit: "V-101", engine_model: "petrol-4-a", meter_unit: "km" }]);
    for (const text of [units, csvOf(rows)]) {
      for (const chunk of await readChunks(text, { file: text === units ? "units.csv" : "judgements.csv", known })) {
        assembler.add(chunk);
      }
    }
    return assembler.finish();
  }

  test("two of the same reading that say otherwise are refused, exact repeats count once", async () => {
    const twice = await assembled([row, row]);
    expect(twice.facts.judgements).toHaveLength(1);
    expect(twice.issues).toMatchObject([{ severity: "mention", code: "repeated" }]);
    const against = await assembled([row, { ...row, verdict: "accepted" }, { ...row, cylinder: "2" }]);
    expect(against.facts.judgements).toMatchObject([{ cylinder: 2 }]);
    expect(against.issues.map(({ code }) => code)).toEqual(["told-otherwise", "told-otherwise"]);
  });

  test("a meter that was withdrawn refuses none beside it", async () => {
    const known = { models: new Map([["petrol-4-a", model()]]), units: new Map(), today: null };
    const told = { unit: "V-101", meter_unit: "km", test: "leak-down", cylinder: "1", value: "9", value_unit: "%" };
    const tests = csvOf([
      { ...told, engine_model: "petrol-4-a", test_date: "2025-01-10", meter: "90000" },
      { ...told, engine_model: "petrol-4-a", test_date: "2025-02-10", meter: "9100" },
      { ...told, engine_model: "petrol-4-a", test_date: "2025-03-10", meter: "9200" },
    ]);
    const codes = async (verdict: string) => {
      const assembler = factAssembler(known);
      for (const [file, text] of [
        ["tests.csv", tests],
        ["judgements.csv", csvOf([{ ...row, verdict }])],
      ] as const) {
        for (const chunk of await readChunks(text, { file, known })) assembler.add(chunk);
      }
      return assembler.finish().issues.map(({ code }) => code);
    };
    expect(await codes("withdrawn")).toEqual([]);
    expect(await codes("set-aside")).toContain("meter-backwards");
  });

  test("a cylinder that the engine has not is refused", async () => {
    const { facts, issues } = await assembled([{ ...row, cylinder: "5" }]);
    expect(facts.judgements).toEqual([]);
    expect(issues).toMatchObject([{ code: "cylinder-unknown", column: "cylinder" }]);
  });
});

describe("sealing", () => {
  const units = [unitFact()];
  const tests = [testFact(), testFact({ date: "2025-02-10", meter: 1100 })];

  test("gives each test what was made of it, of the whole test first; what was taken back is none", () => {
    const judgements = [
      judgementFact({ cylinder: 1, verdict: "accepted", reason: "measured again" }),
      judgementFact(),
      judgementFact({ date: "2025-02-10", verdict: "none" }),
    ];
    const [first, second] = engineOf(indexed({ units, tests, judgements })).tests;
    expect(first?.judgements).toEqual([
      { cylinder: null, verdict: "set-aside", reason: "gauge found broken", by: "W. Lead" },
      { cylinder: 1, verdict: "accepted", reason: "measured again", by: "W. Lead" },
    ]);
    expect(second).not.toHaveProperty("judgements");
  });

  test("warns of one that names no test, and passes over those after the as-of date", () => {
    const judgements = [judgementFact({ instrument: "tester 9" }), judgementFact({ date: "2026-12-24" })];
    const index = indexed({ units, tests, judgements });
    expect(unitOf(index).warnings).toEqual([
      "A judgement names a leak-down test of 10 Jan 2025 that is not on file: it changes nothing.",
    ]);
  });

  test("knows nothing of what was withdrawn: neither readings nor meter, engine or what was said of it", () => {
    const error = testFact({
      date: "2025-03-10",
      meter: 90,
      meterUnit: "h",
      engineSerial: "E-9",
      engineModel: "other",
    });
    const judgements = [
      judgementFact({ date: error.date, verdict: "withdrawn", reason: "another unit" }),
      judgementFact({ date: error.date, cylinder: 1 }),
    ];
    const without = indexed({ units, tests });
    const index = indexed({ units, tests: [error, ...tests], judgements });
    expect(index.units).toEqual(without.units);
    expect(engineOf(index).tests).toEqual(engineOf(without).tests);
    expect(unitOf(indexed({ units, tests: [error, ...tests] })).warnings).not.toEqual([]);
  });

  test("of a withdrawn reading the others of its test stay; of the last one nothing does", () => {
    const two = testFact({ readings: [reading({ cylinder: 1 }), reading({ cylinder: 2, value: 12 })] });
    const gone = judgementFact({ cylinder: 1, verdict: "withdrawn" });
    const [left] = engineOf(indexed({ units, tests: [two], judgements: [gone] })).tests;
    expect(left?.readings.map(({ cylinder }) => cylinder)).toEqual([2]);
    expect(left).not.toHaveProperty("judgements");
    expect(engineOf(indexed({ units, tests: [testFact(), tests[1]!], judgements: [gone] })).tests).toHaveLength(1);
  });
});

const judged = (...judgements: { cylinder: number | null; verdict: "set-aside" | "accepted" }[]) =>
  judgements.map((one) => ({ ...one, reason: "hose leaked", by: "W. Lead" }));

/** Tests of which the fourth was made cold and is doubted for it. */
function conditionedWith(judgements: ReturnType<typeof judged>) {
  const history = engineHistory({
    tests: every10000([
      [5, 5, 5, 5],
      [6, 6, 6, 6],
      [6, 7, 6, 7],
      [7, 7, 7, 7],
      [8, 7, 8, 8],
    ]).map((one, i) => (i === 3 ? { ...one, setUp: { warm: false } } : one)),
  });
  const tests = history.tests.map((one, i) => (i === 3 ? { ...one, judgements } : one));
  return conditionEngine({ ...history, tests }).tests[3]!;
}

describe("weights", () => {
  test("without a judgement the program's own doubt takes weight", () => {
    expect(conditionedWith([]).weights).toEqual([0.25, 0.25, 0.25, 0.25]);
  });

  test("what was set aside weighs nothing, and says by whom and why", () => {
    const { weights, doubts } = conditionedWith(judged({ cylinder: null, verdict: "set-aside" }));
    expect(weights).toEqual([0, 0, 0, 0]);
    expect(doubts[0]).toEqual({
      code: "set-aside",
      cylinder: null,
      weight: 0,
      words: "set aside by W. Lead: hose leaked",
    });
  });

  test("one cylinder set aside leaves the others", () => {
    const { weights, doubts } = conditionedWith(judged({ cylinder: 2, verdict: "set-aside" }));
    expect(weights).toEqual([0.25, 0, 0.25, 0.25]);
    expect(doubts[0]?.words).toBe("cylinder 2 set aside by W. Lead: hose leaked");
  });

  test("what was accepted counts in full, and the doubt is told as overruled", () => {
    const { weights, doubts } = conditionedWith(judged({ cylinder: null, verdict: "accepted" }));
    expect(weights).toEqual([1, 1, 1, 1]);
    expect(doubts.map(({ code }) => code)).toEqual(["accepted", "overruled"]);
    expect(doubts[0]?.words).toBe("accepted by W. Lead, counts in full: hose leaked");
  });

  test("what was said of a cylinder goes before what was said of the whole test", () => {
    const aside = judged({ cylinder: null, verdict: "set-aside" }, { cylinder: 3, verdict: "accepted" });
    expect(conditionedWith(aside).weights).toEqual([0, 0, 1, 0]);
    const accepted = judged({ cylinder: null, verdict: "accepted" }, { cylinder: 3, verdict: "set-aside" });
    expect(conditionedWith(accepted).weights).toEqual([1, 1, 0, 1]);
  });

  test("whatever the readings: what is set aside weighs 0, what is accepted 1", () => {
    const values = fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 4, maxLength: 4 });
    const verdict = fc.constantFrom("set-aside" as const, "accepted" as const, null);
    const runs = fc.array(fc.tuple(values, verdict, fc.constantFrom(null, 1, 4)), { minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(runs, (given) => {
        const history = engineHistory({ tests: every10000(given.map(([readings]) => readings)) });
        const tests = history.tests.map((one, i) => {
          const [, said, cylinder = null] = given[i] ?? [];
          return said == null ? one : { ...one, judgements: judged({ cylinder, verdict: said }) };
        });
        for (const [i, { weights }] of conditionEngine({ ...history, tests }).tests.entries()) {
          const [, said, cylinder = null] = given[i] ?? [];
          for (const [r, weight] of weights.entries()) {
            if (said === "set-aside" && (cylinder === null || cylinder === r + 1)) expect(weight).toBe(0);
            if (said === "accepted" && (cylinder === null || cylinder === r + 1)) expect(weight).toBe(1);
          }
        }
      }),
    );
  });
});

describe("the assessment", () => {
  const tests = halfYearly(worn(6, 5, 1)).map((one, i) => (i === 5 ? { ...one, warm: false } : one));
  const assessed = (judgements: readonly JudgementFact[]) =>
    assessedUnit({ units: [unitFact()], tests, judgements }).assessment;
  const level = (unit: ReturnType<typeof assessed>) => unit.cylinders[0]?.measures[0]?.level ?? Number.NaN;

  test("rests on what a person let stand", () => {
    const last = { date: "2026-06-01" };
    const accepted = assessed([judgementFact({ ...last, verdict: "accepted" })]);
    const aside = assessed([judgementFact(last)]);
    const unjudged = assessed([]);
    expect(new Set([accepted, unjudged, aside].map(level)).size).toBe(3);
    expect(unjudged.inDoubt).toHaveLength(1);
    expect(accepted.inDoubt).toEqual([]);
    expect(aside.inDoubt).toEqual([]);
    expect(assessed([judgementFact({ ...last, verdict: "none" })])).toEqual(assessed([]));
  });
});

test("why a forecast moved names what a person made of the test", () => {
  const test = { date: "2026-01-10", measure: "leak-down", attempt: 1, used: true, readings: "a" } as const;
  expect(testCauses([test], [{ ...test, used: false, judged: "set-aside" }])).toEqual([
    "leak-down test on 10 Jan 2026 set aside by a person",
  ]);
  expect(testCauses([test], [{ ...test, judged: "accepted, set-aside 3" }])).toEqual([
    "leak-down test on 10 Jan 2026 accepted, cylinder 3 set aside by a person",
  ]);
  expect(testCauses([{ ...test, judged: "accepted" }], [test])).toEqual([
    "leak-down test on 10 Jan 2026 no longer judged by a person",
  ]);
});

describe("two rulings that cannot both be true", () => {
  const ruling = (verdict: "fault" | "no-fault", by: string, reason: string) => ({
    judgements: [{ cylinder: 2, verdict, reason, by }],
  });
  const told = (first: "fault" | "no-fault", second: "fault" | "no-fault", repair = false) => {
    const tests = every10000([
      [7, 7, 7, 7],
      [7, 15, 7, 7],
      [7, 16, 7, 7],
    ]).map((one, i) => ({
      ...one,
      ...(i === 1 ? ruling(first, "A. Fitter", "heard it") : {}),
      ...(i === 2 ? ruling(second, "W. Lead", "seat looks new") : {}),
    }));
    const x = ((tests[1]?.x ?? 0) + (tests[2]?.x ?? 0)) / 2;
    const repairs = repair ? [{ x, scope: "top-end" as const, cylinders: [2] }] : [];
    const { tests: judged } = conditionEngine(engineHistory({ tests, repairs }));
    return judged.flatMap(({ doubts }) => doubts.map(({ words }) => words));
  };

  test("the one of the later test holds, and the earlier says that it is superseded", () => {
    expect(told("fault", "no-fault")).toEqual([
      expect.stringMatching(
        /^cylinder 2 accepted by A\. Fitter as that of a fault, counts in full: heard it; superseded: of the later test of .+ W\. Lead says that no fault had begun \(seat looks new\)$/,
      ),
    ]);
  });

  test("a fault after none, and none after the repair of one, are no contradiction", () => {
    for (const words of [...told("no-fault", "fault"), ...told("fault", "no-fault", true), ...told("fault", "fault")]) {
      expect(words).not.toContain("superseded");
    }
  });
});

import { describe, expect, it } from "vitest";
import { engineModelSchema } from "@/lib/schema/engine-model.ts";
import type { TestLine, UnitReport } from "@/lib/schema/report.ts";
import { offersWetTest } from "@/lib/test-entry/set-up.ts";
import { onTester, testSheetFacts } from "@/lib/test-entry/sheet-facts.ts";

const entry = engineModelSchema.parse({
  id: "petrol-2",
  cylinders: 2,
  fuel: "petrol",
  compression: { newKpa: 1250, minimumKpa: 900 },
  leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30, orificeMm: 1 },
});

const line = (date: string, attempt: number, value: number, more: Partial<TestLine["entered"][number]> = {}) => ({
  date,
  attempt,
  measure: "compression-dry" as const,
  entered: [{ cylinder: 1, value, valueUnit: "kPa" as const, supply: null, referred: value / 0.8, weight: 1, ...more }],
});

/** As much of a report as a sheet asks for. */
const reportOf = (tests: readonly unknown[], model = entry) =>
  ({
    assessment: {
      unit: "V-1",
      meter: { value: 1500, unit: "h" },
      cylinders: [1, 2].map((cylinder) => ({
        cylinder,
        measures: [
          { measure: "compression-dry", limit: 900 },
          { measure: "leak-down", limit: 18 },
        ],
      })),
    },
    model,
    depot: "Highcol",
    tests,
  }) as unknown as UnitReport;

describe("what a sheet knows", () => {
  const tests = [line("2026-02-01", 1, 1000), line("2026-05-01", 2, 990, { weight: 0 }), line("2026-05-01", 1, 980)];

  it("the last readings come newest first, the later attempt of a day before the earlier", () => {
    const { tests: of } = testSheetFacts(reportOf(tests), { altitudeM: null });
    const dry = of.find(({ test }) => test === "compression-dry");
    expect(dry?.byCylinder[0]?.last.map(({ level, used }) => [level, used])).toEqual([
      [990, false],
      [980, true],
      [1000, true],
    ]);
    expect(dry?.byCylinder[1]?.last).toEqual([]);
  });

  it("levels, limit and the new engine's pressure are told as they read in the air of the depot", () => {
    const [here, unknown] = [1850, null].map((altitudeM) =>
      testSheetFacts(reportOf(tests), { altitudeM }).tests.find(({ test }) => test === "compression-dry"),
    );
    // The trade notes' factor at 1,850 m is 0.80.
    expect(here?.byCylinder[0]?.limit).toBeCloseTo(900 * 0.8, -1);
    expect(here?.newKpa).toBeCloseTo(1250 * 0.8, -1);
    expect(here?.byCylinder[0]?.last[1]?.level).toBeCloseTo(980, -1);
    // Not known: as it was read, and the limit as the model has it.
    expect(unknown?.byCylinder[0]?.limit).toBe(900);
    expect(unknown?.byCylinder[0]?.last[1]?.level).toBe(980);
  });

  it("near sea level the limit is the model's own", () => {
    const of = testSheetFacts(reportOf(tests), { altitudeM: 5 }).tests.find(({ test }) => test === "compression-dry");
    expect(of?.byCylinder[0]?.limit).toBe(900);
    expect(of?.byCylinder[0]?.last[1]?.level).toBe(980);
  });

  it("a leak-down test has its limit in force and the model's usual tester", () => {
    const of = testSheetFacts(reportOf(tests), { altitudeM: 1850 }).tests.find(({ test }) => test === "leak-down");
    expect(of?.byCylinder[0]?.limit).toBe(18);
    expect(of?.tester).toEqual({ orificeMm: 1, supplyKpa: 550 });
  });

  it("the tester of the last leak-down test, where it showed what was held, and the names of those used before", () => {
    const leakDown = (date: string, instrument: string | null, more: Partial<TestLine["entered"][number]>) => ({
      ...line(date, 1, 74, more),
      measure: "leak-down" as const,
      instrument,
    });
    const held = leakDown("2026-05-01", "T-2", { valueUnit: "psi", supply: 80 });
    const lost = leakDown("2026-04-01", "T-1", { valueUnit: "%" });
    const factsOf = (...of: unknown[]) =>
      testSheetFacts(reportOf([...tests, ...of]), { altitudeM: null }).tests.find(({ test }) => test === "leak-down");
    const known = factsOf(lost, leakDown("2026-01-01", "T-2", {}), leakDown("2025-01-01", null, {}), held);
    expect(known).toMatchObject({ lastHeld: { valueUnit: "psi", supply: 80 }, instruments: ["T-2", "T-1"] });
    expect(factsOf(lost)).toMatchObject({ lastHeld: null, instruments: ["T-1"] });
    expect(factsOf()).toMatchObject({ lastHeld: null, instruments: [] });
  });

  it("a wet test is offered to a diesel only where the model allows it", () => {
    const kinds = (model: typeof entry) =>
      testSheetFacts(reportOf([], model), { altitudeM: null }).tests.map(({ test }) => test);
    const diesel = { ...entry, fuel: "diesel" };
    expect(kinds(entry)).toContain("compression-wet");
    expect(kinds(diesel)).toEqual(["compression-dry", "leak-down"]);
    expect(kinds({ ...diesel, wetTest: true })).toContain("compression-wet");
    expect(offersWetTest({})).toBe(true);
  });

  it("what the model is judged on comes first", () => {
    const { compression: _none, ...leakDownAlone } = entry;
    const [first] = testSheetFacts(reportOf([], leakDownAlone), { altitudeM: null }).tests;
    expect(first?.test).toBe("leak-down");
    expect(first?.newKpa).toBeNull();
  });
});

describe("a leakage on another tester", () => {
  const usual = { orificeMm: 1, supplyKpa: 550 };
  it("reads as the trade notes have it, and stands as it is on the usual one", () => {
    // 20 % on 1.0 mm: 10 on 1.2 mm, 4.5 on 1.5 mm, 40 on 0.8 mm.
    for (const [orificeMm, percent] of [
      [1.2, 10],
      [1.5, 4.5],
      [0.8, 40],
    ] as const) {
      expect(onTester(20, usual, { orificeMm, supplyKpa: null })).toBeCloseTo(percent, 0);
    }
    expect(onTester(20, usual, { orificeMm: null, supplyKpa: null })).toBe(20);
    expect(onTester(20, usual, { ...usual, supplyKpa: 200 })).toBeCloseTo(25, -0.5);
  });
});

import { expect, test } from "vitest";
import { engineOf, indexed, meterFact, repairFact, testFact, unitFact, unitOf } from "./facts.ts";

const swap = (unit: string, date: string, meter: number, engineSerial: string | null) =>
  repairFact({ unit, date, meter, scope: "engine-swap", engineSerial });
const tested = (unit: string, date: string, meter: number, engineSerial: string | null = null) =>
  testFact({ unit, date, meter, engineSerial });

test("H-302 gets the float; its own engine is rebuilt on the bench and goes into H-305: wear follows the serial", () => {
  const index = indexed({
    units: [
      unitFact({ unit: "H-302", engineSerial: "OWN" }),
      unitFact({ unit: "H-305" }),
      unitFact({ unit: "F-1", engineSerial: "FLOAT" }),
    ],
    tests: [
      tested("F-1", "2023-06-01", 90_000),
      tested("H-302", "2024-01-01", 400_000),
      tested("H-302", "2025-06-01", 520_000),
      tested("H-305", "2024-01-01", 300_000),
      tested("H-305", "2025-09-01", 390_000),
    ],
    repairs: [
      swap("F-1", "2023-12-01", 100_000, null),
      swap("H-302", "2025-01-01", 500_000, "FLOAT"),
      repairFact({ unit: "H-302", date: "2025-02-01", meter: 505_000, scope: "complete", engineSerial: "OWN" }),
      swap("H-305", "2025-05-01", 370_000, "OWN"),
    ],
  });
  const own = engineOf(index, "H-305");
  expect(own.engine).toBe("OWN");
  expect(own.tests.map((t) => [t.unit, t.x])).toEqual([
    ["H-302", 400_000],
    ["H-305", 520_000],
  ]);
  expect(own.repairs.map((r) => [r.scope, r.unit, r.x])).toEqual([
    ["complete", "H-302", 500_000],
    ["engine-swap", "H-305", 500_000],
  ]);
  expect(own.fittings).toEqual([
    { unit: "H-302", fromDate: null, toDate: "2025-01-01", fromX: 0, toX: 500_000 },
    { unit: "H-305", fromDate: "2025-05-01", toDate: null, fromX: 500_000, toX: null },
  ]);
  expect(unitOf(index, "H-305").engineOffset).toBe(130_000);
  const float = engineOf(index, "H-302");
  expect(float.tests.map((t) => [t.unit, t.x])).toEqual([
    ["F-1", 90_000],
    ["H-302", 120_000],
  ]);
  expect(unitOf(index, "H-302").engineOffset).toBe(-400_000);
  expect(index.seal("H-305 #1").tests.map((t) => t.x)).toEqual([300_000]);
  expect(unitOf(index, "F-1").engine).toBe("F-1 #2");
  expect(index.units.flatMap((u) => u.warnings)).toEqual([]);
});

test("an engine not known starts a life of its own, on the unit's meter", () => {
  const tests = [tested("V-101", "2025-01-01", 1000), tested("V-101", "2025-12-01", 3000)];
  const index = indexed({ units: [unitFact()], tests, repairs: [swap("V-101", "2025-06-01", 2000, null)] });
  expect(index.engineKeys).toEqual(["V-101 #1", "V-101 #2"]);
  expect(engineOf(index).tests.map((t) => t.x)).toEqual([3000]);
  expect(engineOf(index).fittings[0]?.fromX).toBe(2000);
  expect(unitOf(index).engineOffset).toBe(0);
  expect(engineOf(index).serial).toBeNull();
});

test("a serial that a later test names is the engine's from the start of its stay", () => {
  const tests = [tested("V-101", "2025-01-01", 1000), tested("V-101", "2025-12-01", 3000, "S1")];
  const index = indexed({ units: [unitFact()], tests });
  expect(index.engineKeys).toEqual(["S1"]);
  expect(engineOf(index).tests).toHaveLength(2);
  expect(unitOf(index).warnings).toEqual([]);
});

test("a serial that changes without a repair row is a swap, with a warning", () => {
  const tests = [
    tested("V-101", "2025-01-01", 1000, "S1"),
    tested("V-101", "2025-06-01", 2000, "S2"),
    tested("V-101", "2025-12-01", 3000),
  ];
  const index = indexed({ units: [unitFact()], tests });
  expect(engineOf(index).engine).toBe("S2");
  expect(engineOf(index).tests.map((t) => t.x)).toEqual([2000, 3000]);
  expect(index.seal("S1").tests.map((t) => t.x)).toEqual([1000]);
  expect(unitOf(index).warnings).toEqual([
    "The test of 1 Jun 2025 names engine S2, where engine S1 was known: taken as a swap that nobody recorded.",
  ]);
});

test("on the day of a swap the serial decides, and without one the meter", () => {
  const day = "2025-06-01";
  const index = indexed({
    units: [unitFact({ engineSerial: "S1" })],
    tests: [
      tested("V-101", day, 1999),
      { ...tested("V-101", day, 2000, "S1"), attempt: 2 },
      { ...tested("V-101", day, 2000), attempt: 3 },
      tested("V-101", "2025-01-01", 1000, "S1"),
    ],
    repairs: [swap("V-101", day, 2000, "S2")],
  });
  expect(index.seal("S1").tests.map((t) => t.attempt)).toEqual([1, 1, 2]);
  expect(index.seal("S2").tests.map((t) => t.attempt)).toEqual([3]);
  expect(unitOf(index).warnings).toEqual([]);
});

test("an engine seen in another unit left the first one, where an engine not known runs since", () => {
  const index = indexed({
    units: [unitFact({ engineSerial: "S1" }), unitFact({ unit: "V-102" })],
    tests: [
      tested("V-101", "2025-01-01", 1000, "S1"),
      tested("V-101", "2025-05-01", 1500),
      tested("V-101", "2025-11-01", 2500),
      tested("V-102", "2025-11-01", 9000),
    ],
    repairs: [swap("V-102", "2025-06-01", 8000, "S1")],
  });
  const moved = index.seal("S1");
  expect(moved.fittings.map((f) => [f.unit, f.toDate])).toEqual([
    ["V-101", "2025-06-01"],
    ["V-102", null],
  ]);
  const leftAt = moved.fittings[0]?.toX ?? 0;
  expect(leftAt).toBeGreaterThan(1500);
  expect(leftAt).toBeLessThan(2500);
  expect(moved.tests.map((t) => t.x)).toEqual([1000, 1500, leftAt + 1000]);
  expect(unitOf(index).engine).toBe("V-101 #2");
  expect(engineOf(index).tests.map((t) => t.x)).toEqual([2500]);
  expect(unitOf(index).warnings).toEqual([expect.stringContaining("Add the swap to the repairs")]);
});

test("one serial named in two units at the same time: two histories, kept apart, both units told", () => {
  const index = indexed({
    units: [unitFact(), unitFact({ unit: "V-102" })],
    tests: [
      tested("V-101", "2025-01-01", 1000, "S1"),
      tested("V-102", "2025-06-01", 9000, "S1"),
      tested("V-101", "2025-11-01", 2000, "S1"),
    ],
  });
  expect(index.engineKeys).toEqual(["S1", "S1 (V-102)", "V-102 #1"]);
  expect(engineOf(index).tests.map((t) => t.x)).toEqual([1000, 2000]);
  expect(engineOf(index, "V-102").tests.map((t) => t.x)).toEqual([9000]);
  for (const unit of ["V-101", "V-102"]) expect(unitOf(index, unit).warnings.join(" ")).toContain("kept apart");
});

test("records of a move that differ by days don't break the history", () => {
  const index = indexed({
    units: [unitFact({ engineSerial: "S1" }), unitFact({ unit: "V-102" })],
    tests: [tested("V-101", "2025-01-01", 1000), tested("V-102", "2025-11-01", 9000)],
    repairs: [swap("V-102", "2025-06-01", 8000, "S1"), swap("V-101", "2025-06-09", 2000, "S2")],
  });
  expect(index.seal("S1").tests.map((t) => t.x)).toEqual([1000, 3000]);
  expect(index.units.flatMap((u) => u.warnings)).toEqual([]);
});

test("an engine that comes back takes its wear with it", () => {
  const index = indexed({
    units: [unitFact({ engineSerial: "S1" })],
    tests: [tested("V-101", "2024-12-01", 900, "S1"), tested("V-101", "2025-12-01", 4000)],
    repairs: [swap("V-101", "2025-01-01", 1000, "S2"), swap("V-101", "2025-06-01", 3000, "S1")],
  });
  expect(engineOf(index).engine).toBe("S1");
  expect(engineOf(index).tests.map((t) => t.x)).toEqual([900, 2000]);
  expect(unitOf(index).engineOffset).toBe(-2000);
});

test("from km to miles the wear is converted to the meter that it is on now", () => {
  const index = indexed({
    units: [unitFact({ engineSerial: "S1" }), unitFact({ unit: "V-102", meterUnit: "mi" })],
    tests: [tested("V-101", "2025-01-01", 80_467.2), { ...tested("V-102", "2025-11-01", 9000), meterUnit: "mi" }],
    repairs: [swap("V-101", "2025-05-01", 160_934.4, null), swap("V-102", "2025-06-01", 8000, "S1")],
  });
  const moved = engineOf(index, "V-102");
  expect(moved.meterUnit).toBe("mi");
  expect(moved.tests[0]?.x).toBeCloseTo(50_000, 8);
  expect(moved.tests[1]?.x).toBeCloseTo(101_000, 8);
  expect(unitOf(index, "V-102").engineOffset).toBeCloseTo(92_000, 8);
});

test("from km to hours no wear can be carried over: a history of its own", () => {
  const index = indexed({
    units: [unitFact({ engineSerial: "S1" }), unitFact({ unit: "G-501", meterUnit: "h" })],
    tests: [tested("V-101", "2025-01-01", 80_000), { ...tested("G-501", "2025-11-01", 900), meterUnit: "h" }],
    repairs: [swap("V-101", "2025-05-01", 90_000, null), swap("G-501", "2025-06-01", 800, "S1")],
  });
  expect(engineOf(index, "G-501")).toMatchObject({ engine: "S1 (h)", serial: "S1", meterUnit: "h" });
  expect(engineOf(index, "G-501").tests.map((t) => t.x)).toEqual([900]);
  expect(index.seal("S1").tests.map((t) => t.x)).toEqual([80_000]);
  expect(unitOf(index, "G-501").warnings).toEqual([expect.stringContaining("can't be carried over")]);
});

test("a repair of an engine that was in no unit is left out, with a warning", () => {
  const repairs = [swap("V-101", "2025-01-01", 1000, "S1"), repairFact({ engineSerial: "SPARE" })];
  const index = indexed({ units: [unitFact()], repairs });
  expect(engineOf(index).repairs.map((r) => r.scope)).toEqual(["engine-swap"]);
  expect(unitOf(index).warnings).toEqual([
    "The repair of 1 Jun 2025 names engine SPARE, which was in no unit: left out.",
  ]);
});

test("a repair of a spare that is fitted later stands at the start of its life", () => {
  const index = indexed({
    units: [unitFact({ engineSerial: "S1" })],
    tests: [tested("V-101", "2025-12-01", 4000)],
    repairs: [
      repairFact({ date: "2024-06-01", meter: 900, scope: "complete", engineSerial: "SPARE" }),
      swap("V-101", "2025-01-01", 1000, "SPARE"),
    ],
  });
  expect(engineOf(index).repairs.map((r) => [r.scope, r.x])).toEqual([
    ["complete", 1000],
    ["engine-swap", 1000],
  ]);
  expect(index.seal("S1").repairs).toEqual([]);
});

test("wear runs on over a new meter and a swap together", () => {
  const index = indexed({
    units: [unitFact({ engineSerial: "S1" })],
    tests: [tested("V-101", "2025-01-01", 100_000), tested("V-101", "2025-12-01", 7000)],
    meterReadings: [meterFact({ date: "2025-03-01", meter: 0, meterReset: true })],
    repairs: [swap("V-101", "2025-06-01", 2000, null)],
  });
  expect(unitOf(index)).toMatchObject({ engine: "V-101 #2", offset: 100_000, engineOffset: 0 });
  expect(engineOf(index).tests.map((t) => t.x)).toEqual([107_000]);
  expect(index.seal("S1").fittings[0]?.toX).toBe(102_000);
});

test("in-service date and meter begin the first stay; records before it deny the date", () => {
  const started = unitFact({ inServiceDate: "2024-01-01", inServiceMeter: 120 });
  const tests = [tested("V-101", "2025-01-01", 1000)];
  expect(engineOf(indexed({ units: [started], tests })).fittings).toEqual([
    { unit: "V-101", fromDate: "2024-01-01", toDate: null, fromX: 120, toX: null },
  ]);
  const denied = indexed({ units: [started], tests: [...tests, tested("V-101", "2023-01-01", 50)] });
  expect(engineOf(denied).fittings[0]).toMatchObject({ fromDate: null });
  expect(unitOf(denied).warnings).toContainEqual(expect.stringContaining("in-service date"));
});

test("the unit's own row names an engine only where nothing dated does", () => {
  const tests = [tested("V-101", "2025-01-01", 1000, "S1")];
  const index = indexed({ units: [unitFact({ engineSerial: "ROW" })], tests });
  expect(unitOf(index).engine).toBe("S1");
  expect(unitOf(index).warnings).toEqual([expect.stringContaining("own row names engine ROW")]);
});

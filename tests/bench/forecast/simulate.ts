import { type Random, seededRandom } from "../../../demo-data/random.ts";
import { addDays, daysBetween } from "../../../lib/calendar.ts";
import { areaOfLeakage, type Cylinder, crankedPressureRatio, leakageOn, type Tester } from "./physics.ts";

/**
 * Made-up fleets whose truth is known: each cylinder has a leak area for every meter reading, testers and gauges read it by
 * physics.ts with the errors of common practice, and what a workshop's files would hold of it is written as such files.
 */

/** Figures of which some differ between the fleets that a model is developed on and those that it is reported on. */
export interface World {
  readonly name: "development" | "report";
  /** Power of the use by which accelerating ring wear grows. */
  readonly acceleration: number;
  /** Power of the use since its start by which a burning valve's leak grows. */
  readonly valvePower: number;
  /** Errors: of a reading's own there is 1 point and this share of its level. */
  readonly readingShare: number;
  /** Degrees of freedom of the reading's own error; Infinity: normal. */
  readonly tailFreedom: number;
  readonly polytrope: number;
  /** Standard deviation of the logarithm of engines' rates about their model's. */
  readonly rateSpread: number;
}

export const development: World = {
  name: "development",
  acceleration: 2,
  valvePower: 1.6,
  readingShare: 0.07,
  tailFreedom: Number.POSITIVE_INFINITY,
  polytrope: 1.3,
  rateSpread: 0.4,
};

export const report: World = {
  name: "report",
  acceleration: 2.6,
  valvePower: 1.25,
  readingShare: 0.09,
  tailFreedom: 5,
  polytrope: 1.27,
  rateSpread: 0.5,
};

/** How a kind of fleet wears and is tested; what is left out is usual. */
export interface Kind {
  readonly name: string;
  /** Points of leakage for each 1,000 h at 10 %, the middle engine's; 0: stable. */
  readonly rate: number;
  readonly tests: readonly [fewest: number, most: number];
  readonly engines?: number;
  readonly accelerating?: boolean;
  /** Share of the wear's growth that comes in steps of random size and not evenly. */
  readonly wandering?: boolean;
  /** Share of engines in which one valve begins to burn at some meter. */
  readonly valves?: number;
  /** Share of engines in which a gasket goes between two neighbours. */
  readonly gaskets?: number;
  /** Share of engines with a valve job or a bottom end at some meter; of these, share that nobody recorded. */
  readonly repairs?: { readonly share: number; readonly unrecorded: number };
  /** Share of tests with a fault of their set-up that moves all readings. */
  readonly setUpFaults?: number;
  /** Share of tests made by a tester of another bore. */
  readonly otherTester?: number;
  readonly withCompression?: boolean;
  /** The meters had run up to this before the life of rings and bores began, which no file tells. */
  readonly meterBefore?: number;
  /** Whether air is heard where it escapes and written down. */
  readonly heard?: boolean;
}

export const kinds: readonly Kind[] = [
  { name: "steady ring wear", rate: 2, tests: [5, 14], heard: true },
  { name: "accelerating ring wear", rate: 1.2, tests: [6, 16], accelerating: true, heard: true },
  { name: "wandering wear", rate: 2, tests: [6, 14], wandering: true },
  { name: "valves that burn", rate: 0.8, tests: [6, 14], valves: 0.6, heard: true },
  { name: "gaskets that go", rate: 0.8, tests: [6, 14], gaskets: 0.6, heard: true },
  { name: "stable engines", rate: 0, tests: [5, 14] },
  { name: "few tests", rate: 2.5, tests: [3, 4] },
  { name: "repairs, some unrecorded", rate: 2, tests: [8, 16], repairs: { share: 0.7, unrecorded: 0.4 }, heard: true },
  { name: "poor set-ups, two testers", rate: 2, tests: [6, 14], setUpFaults: 0.12, otherTester: 0.3 },
  { name: "with compression, valves unheard", rate: 1.5, tests: [5, 12], valves: 0.4, withCompression: true },
  { name: "small fleet", rate: 2, tests: [4, 10], engines: 4, heard: true },
  { name: "used engines, meters from anywhere", rate: 2, tests: [4, 12], meterBefore: 20_000, heard: true },
];

const cylindersOfEngine = 4;
export const limitPercent = 30;
export const horizonYears = 10;
const usualTester: Tester = { boreMm: 1.016, supplyGaugeKpa: 550 };
const otherTester: Tester = { boreMm: 1.3, supplyGaugeKpa: 550 };
const newKpa = 1250;

const engineModelId = "simulated-4";

export const engineModels = {
  schemaVersion: 1,
  engineModels: [
    {
      id: engineModelId,
      cylinders: cylindersOfEngine,
      neighbours: [
        [1, 2],
        [2, 3],
        [3, 4],
      ],
      compression: { newKpa, minimumKpa: 800, spreadPercent: 40, referenceRpm: 200 },
      leakDown: { watchPercent: 10, planPercent: 20, limitPercent, orificeMm: 1.016, supplyKpa: 550 },
    },
  ],
};

export interface TrueCylinder {
  readonly cylinder: number;
  /** Use from the as-of date to the first crossing; Infinity: not within the horizon. 0: crossed. */
  readonly distance: number;
  /** What is wrong with it, beside the wear that it has in common with its siblings. */
  readonly fault: "valve" | "gasket" | null;
  /** Meter at which the fault began, and at which half of the way from there to the limit was gone; null: none. */
  readonly faultFrom: number | null;
  readonly halfWay: number | null;
}

export interface TrueUnit {
  readonly unit: string;
  /** Of each test, ascending. */
  readonly testDates: readonly string[];
  readonly meters: readonly number[];
  readonly meterNow: number;
  /** Use a day in the time ahead. */
  readonly perDay: number;
  readonly cylinders: readonly TrueCylinder[];
}

export interface Fleet {
  readonly asOf: string;
  readonly files: Readonly<Record<"tests.csv" | "repairs.csv" | "units.csv", string>>;
  readonly units: readonly TrueUnit[];
}

const testsHeader =
  "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit,orifice_mm,heard_at,cranking_rpm,instrument";
const asOf = "2026-06-30";
const unitsOfFleet = 40;

/** A fleet of one kind; the same seed and world give the same bytes. */
export function simulateFleet(kind: Kind, world: World, seed: number): Fleet {
  const random = seededRandom(seed);
  const tests: string[] = [testsHeader];
  const repairs: string[] = ["unit,repair_date,meter,scope,cylinders"];
  const units: string[] = ["unit,engine_model,meter_unit,engine_serial"];
  const truths: TrueUnit[] = [];
  for (let i = 1; i <= (kind.engines ?? unitsOfFleet); i++) {
    const made = simulateUnit(`S-${i}`, kind, world, random);
    units.push(`S-${i},${engineModelId},h,SE-${i}`);
    tests.push(...made.tests);
    repairs.push(...made.repairs);
    truths.push(made.truth);
  }
  const text = (lines: readonly string[]) => `${lines.join("\n")}\n`;
  return {
    asOf,
    files: { "tests.csv": text(tests), "repairs.csv": text(repairs), "units.csv": text(units) },
    units: truths,
  };
}

interface Repair {
  readonly meter: number;
  readonly scope: "top-end" | "bottom-end";
  readonly recorded: boolean;
}

interface Fault {
  readonly kind: "valve" | "gasket";
  readonly cylinders: readonly number[];
  readonly from: number;
  /** Areas, mm²: at once, and after the first 100 h. */
  readonly step: number;
  readonly growth: number;
}

const percentSlope = areaOfLeakage(usualTester, 11) - areaOfLeakage(usualTester, 10);
const limitArea = areaOfLeakage(usualTester, limitPercent);

function simulateUnit(unit: string, kind: Kind, world: World, random: Random) {
  const count = random.whole(...kind.tests);
  const perDay = 3 * Math.exp(random.normal(0, 0.3));
  const dates: string[] = [];
  const meters: number[] = [];
  let daysAgo = random.whole(3, 60);
  for (let t = 0; t < count; t++) {
    dates.unshift(addDays(asOf, -daysAgo));
    daysAgo += Math.round((500 / perDay) * random.between(0.7, 1.3));
  }
  let meter = random.between(800, 2500);
  for (const [t, date] of dates.entries()) {
    if (t > 0) meter += daysBetween(dates[t - 1] as string, date) * perDay * Math.exp(random.normal(0, 0.1));
    meters.push(Math.round(meter));
  }
  const meterNow = meter + daysBetween(dates.at(-1) as string, asOf) * perDay;
  const end = meterNow + perDay * 366 * horizonYears;
  const within = (low: number, high: number) => {
    const from = meters[0] as number;
    return from + random.between(low, high) * (meterNow - from);
  };

  const before = kind.meterBefore === undefined ? 0 : Math.round(random.between(0, kind.meterBefore));

  const repairs: Repair[] = [];
  if (kind.repairs && random.uniform() < kind.repairs.share) {
    const recorded = random.uniform() >= kind.repairs.unrecorded;
    repairs.push({ meter: within(0.2, 0.8), scope: random.uniform() < 0.6 ? "top-end" : "bottom-end", recorded });
  }
  const fault = faultOf(kind, random, within);
  const rate = kind.rate === 0 ? 0 : (kind.rate / 1000) * percentSlope * Math.exp(random.normal(0, world.rateSpread));
  const start = areaOfLeakage(usualTester, Math.max(2, random.normal(7, 2)));
  const valveLeak = kind.repairs ? areaOfLeakage(usualTester, 1) * random.between(0, 2) : 0;
  const areas = Array.from({ length: cylindersOfEngine }, () =>
    ringWear(kind, world, random, {
      start: start * Math.exp(random.normal(0, 0.1)),
      rate: rate * Math.exp(random.normal(0, 0.3)),
      bottomEnds: repairs.filter((r) => r.scope === "bottom-end").map((r) => r.meter),
      end,
    }),
  );
  const areaAt = (cylinder: number, at: number): number => {
    const topEnd = repairs.find((r) => r.scope === "top-end" && at > r.meter);
    let area = (areas[cylinder - 1] as (meter: number) => number)(at) + (topEnd ? 0 : valveLeak);
    if (fault?.cylinders.includes(cylinder) && at > fault.from) {
      const power = fault.kind === "valve" ? world.valvePower : 1;
      area += fault.step + fault.growth * ((at - fault.from) / 100) ** power;
    }
    return area;
  };

  const cylinders = Array.from({ length: cylindersOfEngine }, (_, i): TrueCylinder => {
    const own = fault?.cylinders.includes(i + 1) ? fault : null;
    const half = (areaAt(i + 1, own?.from ?? 0) + limitArea) / 2;
    return {
      cylinder: i + 1,
      distance: firstReach(i + 1, limitArea, meterNow, end) - meterNow,
      fault: own?.kind ?? null,
      faultFrom: own === null ? null : before + own.from,
      halfWay: own === null ? null : before + firstReach(i + 1, half, own.from, end),
    };
  });

  function firstReach(cylinder: number, wanted: number, from: number, to: number): number {
    if (areaAt(cylinder, from) >= wanted) return from;
    if (areaAt(cylinder, to) < wanted) return Number.POSITIVE_INFINITY;
    let [low, high] = [from, to];
    for (let pass = 0; pass < 40; pass++) {
      const middle = (low + high) / 2;
      if (areaAt(cylinder, middle) >= wanted) high = middle;
      else low = middle;
    }
    return high;
  }

  const lines = dates.flatMap((date, t) => {
    const at = meters[t] as number;
    const soFar = Array.from({ length: cylindersOfEngine }, (_, i) => areaAt(i + 1, at));
    return testLines(
      { unit, date, meter: before + at, areas: soFar, fault: fault && at > fault.from ? fault : null },
      kind,
      world,
      random,
    );
  });
  return {
    tests: lines,
    repairs: repairs
      .filter((r) => r.recorded)
      .map((r) => {
        const after = meters.findIndex((m) => m > r.meter);
        const date = after < 0 ? asOf : addDays(dates[after] as string, -3);
        return `${unit},${date},${before + Math.round(r.meter)},${r.scope},all`;
      }),
    truth: {
      unit,
      testDates: dates,
      meters: meters.map((at) => before + at),
      meterNow: before + meterNow,
      perDay,
      cylinders,
    },
  };
}

function faultOf(kind: Kind, random: Random, within: (low: number, high: number) => number): Fault | null {
  const cylinder = random.whole(1, cylindersOfEngine);
  const point = (percent: number) => percent * percentSlope;
  if (random.uniform() < (kind.valves ?? 0)) {
    const growth = point(random.between(1.5, 5));
    return { kind: "valve", cylinders: [cylinder], from: within(0.45, 1), step: 0, growth };
  }
  if (random.uniform() < (kind.gaskets ?? 0)) {
    const first = Math.min(cylinder, cylindersOfEngine - 1);
    const step = point(random.between(6, 12));
    return {
      kind: "gasket",
      cylinders: [first, first + 1],
      from: within(0.5, 1),
      step,
      growth: point(random.between(0.1, 0.8)),
    };
  }
  return null;
}

interface RingWear {
  readonly start: number;
  /** mm² for each meter. */
  readonly rate: number;
  /** Meters of bottom-end repairs, which begin anew. */
  readonly bottomEnds: readonly number[];
  readonly end: number;
}

const wanderStep = 100;

/** Leak area of rings and bores at each meter. Never falls but for a repair. */
function ringWear(kind: Kind, world: World, random: Random, { start, rate, bottomEnds, end }: RingWear) {
  const since = (meter: number) => Math.max(0, ...bottomEnds.filter((at) => at < meter));
  if (kind.wandering) {
    // A gamma process, by exponential parts: the mean is the rate's, most of it comes in a few steps.
    const at = [0];
    for (let meter = wanderStep; meter <= end + wanderStep; meter += wanderStep) {
      const share = -Math.log(1 - random.uniform());
      at.push((at.at(-1) as number) + rate * wanderStep * share * (random.uniform() < 0.4 ? 2.5 : 0));
    }
    return (meter: number) => {
      const step = meter / wanderStep;
      const low = at[Math.floor(step)] as number;
      return start + low + (step % 1) * ((at[Math.floor(step) + 1] as number) - low);
    };
  }
  const power = kind.accelerating ? world.acceleration : 1;
  const unit = 4000;
  return (meter: number) => {
    const run = meter - since(meter);
    return start + rate * unit * (run / unit) ** power;
  };
}

interface TestNow {
  readonly unit: string;
  readonly date: string;
  readonly meter: number;
  readonly areas: readonly number[];
  readonly fault: Fault | null;
}

function testLines({ unit, date, meter, areas, fault }: TestNow, kind: Kind, world: World, random: Random): string[] {
  const isOther = random.uniform() < (kind.otherTester ?? 0);
  const tester = isOther ? otherTester : usualTester;
  const own = () => {
    const z = random.normal(0, 1);
    if (!Number.isFinite(world.tailFreedom)) return z;
    let squares = 0;
    for (let i = 0; i < world.tailFreedom; i++) squares += random.normal(0, 1) ** 2;
    return (z / Math.sqrt(squares / world.tailFreedom)) * Math.sqrt((world.tailFreedom - 2) / world.tailFreedom);
  };
  const isFaulty = random.uniform() < (kind.setUpFaults ?? 0.03);
  // Mostly on the bad side: cold, a hose that leaks, a regulator that was not zeroed.
  const shift = isFaulty ? (random.uniform() < 0.85 ? random.between(4, 10) : -random.between(2, 5)) : 0;
  const shared = random.normal(0, 1.5) + shift;
  const head = `${unit},${engineModelId},${date},${meter},h`;
  const lines = areas.map((area, i) => {
    const level = leakageOn(tester, area);
    const read = level + shared + own() * Math.hypot(1, world.readingShare * level);
    const percent = Math.min(100, Math.max(0, Math.round(read)));
    const heard = heardAt(i + 1, level, fault, kind, random);
    return `${head},leak-down,${i + 1},${percent},%,${tester.boreMm},${heard},,${isOther ? "LT-2" : "LT-1"}`;
  });
  if (!kind.withCompression) return lines;
  const rpm = isFaulty ? random.whole(105, 135) : random.whole(185, 215);
  const ofTest = 1 + random.normal(0, 0.025);
  const cylinder: Cylinder = { litres: 0.55, compressionRatio: 9.5, polytrope: world.polytrope };
  const asNew = crankedPressureRatio(cylinder, areaOfLeakage(usualTester, 6), 200) - 1;
  const pressures = areas.map((area, i) => {
    const gauge = (newKpa * (crankedPressureRatio(cylinder, area, rpm) - 1)) / asNew;
    // Gauges are read to 5 kPa.
    const kpa = 5 * Math.round((gauge * ofTest * (1 + 0.015 * own())) / 5);
    return `${head},compression-dry,${i + 1},${kpa},kPa,,,${rpm},CG-1`;
  });
  return [...lines, ...pressures];
}

function heardAt(cylinder: number, level: number, fault: Fault | null, kind: Kind, random: Random): string {
  if (!kind.heard || level < 5) return "";
  if (fault?.cylinders.includes(cylinder)) {
    if (random.uniform() < 0.15) return "crankcase";
    return fault.kind === "valve" ? "exhaust" : "neighbour";
  }
  return random.uniform() < 0.85 ? "crankcase" : "";
}

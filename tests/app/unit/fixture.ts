import type { Crossing, CylinderAssessment, MeasureAssessment } from "@/lib/schema/assessment.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type { ChartPoint, CylinderSeries, TestLine, UnitReport } from "@/lib/schema/report.ts";
import type { Band, JudgedMeasure } from "@/lib/schema/words.ts";

/** Two reports written by hand (all invented): a four-cylinder diesel read in km, and a V8 read in hours. */

const never: Crossing = {
  status: "not-foreseen",
  meter: { p10: null, p50: null, p90: null },
  date: { p10: null, p50: null, p90: null },
  probabilityWithinYear: 0.01,
};

function judged(
  measure: JudgedMeasure,
  level: number,
  limit: number,
  band: Band,
  crossing: Crossing,
  rate: MeasureAssessment["rate"],
): MeasureAssessment {
  const unit = measure === "leak-down" ? "%" : "kPa";
  return { measure, unit, tests: 9, latest: level, level, limit, band, rate, crossing, reason: `Level ${level}.` };
}

type Occasion = { readonly x: number; readonly date: string; readonly life: number; readonly doubt?: string };

function points(occasions: readonly Occasion[], values: readonly number[], sd: number): ChartPoint[] {
  return occasions.map((o, i) => ({
    x: o.x,
    date: o.date,
    value: values[i] ?? Number.NaN,
    entered: values[i] ?? null,
    sd,
    weight: o.doubt === undefined ? 1 : 0,
    life: o.life,
    doubt: o.doubt ?? null,
  }));
}

const noFan = { fan: [], crossing: never, crossingX: { p10: null, p50: null, p90: null } } as const;

const noSetUp: TestLine["setUp"] = {
  orificeMm: null,
  warm: null,
  throttleOpen: null,
  allPlugsOut: null,
  tdcConfirmed: null,
  gaugeZeroed: null,
  crankingRpm: null,
  altitudeM: null,
  barometerKpa: null,
};

const noMore: Pick<UnitReport, "checks" | "doubtfulTests" | "earlyWarnings" | "settles" | "use"> = {
  doubtfulTests: 0,
  earlyWarnings: [],
  checks: [],
  settles: [],
  use: { spans: [], resets: [], ahead: { p10: 4, p50: 5, p90: 6 }, aheadIsPooled: true, notes: [] },
};

// ---- the diesel ----------------------------------------------------------------------------------------------------

export const dieselModel: EngineModel = {
  id: "diesel-4-a",
  name: "3.0 litre in-line four, diesel",
  fuel: "diesel",
  cylinders: 4,
  neighbours: [
    [1, 2],
    [2, 3],
    [3, 4],
  ],
  layout: "in-line",
  aircraft: false,
  compression: { newKpa: 2900, minimumKpa: 2300, spreadPercent: 15, spreadRule: "of-highest", referenceRpm: 200 },
  leakDown: { watchPercent: 10, planPercent: 18, limitPercent: 28, orificeMm: 1.016, supplyKpa: 550 },
  testInterval: { meter: 20000, days: 365 },
};

const leakOccasions: readonly Occasion[] = [
  { x: 24600, date: "2023-10-04", life: 0 },
  { x: 46200, date: "2024-04-11", life: 0 },
  { x: 64200, date: "2024-09-17", life: 0 },
  { x: 79000, date: "2025-01-21", life: 1 },
  { x: 101500, date: "2025-07-28", life: 1, doubt: "engine cold: all four up 6 points" },
  { x: 104200, date: "2025-08-19", life: 1 },
  { x: 123000, date: "2026-01-30", life: 1 },
  { x: 130300, date: "2026-03-26", life: 1 },
  { x: 136100, date: "2026-05-12", life: 1 },
  { x: 142000, date: "2026-07-02", life: 1 },
  { x: 148300, date: "2026-08-24", life: 1 },
];
const leakValues: Record<number, number[]> = {
  1: [7, 9, 11, 5, 12, 6, 6, 7, 7, 8, 8],
  2: [8, 12, 17, 6, 13, 7, 8, 9, 10, 10, 11],
  3: [6, 8, 9, 5, 12, 6, 7, 8, 9, 13, 22],
  4: [7, 8, 10, 5, 11, 5, 6, 6, 7, 7, 8],
};
const pressureOccasions = leakOccasions.filter((o) => o.doubt === undefined && o.x > 70000);
const pressureValues: Record<number, number[]> = {
  1: [2840, 2830, 2820, 2810, 2815, 2790, 2790],
  2: [2800, 2790, 2780, 2790, 2760, 2750, 2740],
  3: [2830, 2830, 2810, 2790, 2780, 2720, 2640],
  4: [2850, 2830, 2840, 2810, 2820, 2800, 2800],
};

const leakCrossing: Crossing = {
  status: "projected",
  meter: { p10: 151900, p50: 156800, p90: 168300 },
  date: { p10: "2026-09-28", p50: "2026-11-09", p90: "2027-02-15" },
  probabilityWithinYear: 0.93,
};
const leakFan = [
  { x: 148600, p10: 20, p25: 21, p50: 22, p75: 23, p90: 24 },
  { x: 156800, p10: 23, p25: 26, p50: 28, p75: 33, p90: 39 },
  { x: 170000, p10: 28.5, p25: 33, p50: 40, p75: 48, p90: 60 },
  { x: 330000, p10: 60, p25: 70, p50: 80, p75: 90, p90: 100 },
];

function dieselSeries(measure: JudgedMeasure, cylinder: number): CylinderSeries {
  const isLeak = measure === "leak-down";
  const values = isLeak ? (leakValues[cylinder] ?? []) : (pressureValues[cylinder] ?? []);
  const base = {
    cylinder,
    limit: isLeak ? 28 : 2300,
    level: values[values.length - 1] ?? null,
    points: points(isLeak ? leakOccasions : pressureOccasions, values, isLeak ? 1.6 : 45),
  };
  if (isLeak && cylinder === 3) {
    return { ...base, band: "plan", fan: leakFan, crossing: leakCrossing, crossingX: leakCrossing.meter };
  }
  return { ...base, ...noFan, band: isLeak && cylinder === 2 ? "watch" : "sound" };
}

const entry = (cylinder: number, value: number, referred: number, weight = 1) =>
  ({
    cylinder,
    value,
    valueUnit: "%",
    supply: null,
    referred,
    weight,
    heardAt: [],
    order: null,
    remarks: null,
  }) as const;

const dieselTests: TestLine[] = [
  {
    date: "2026-08-24",
    unit: "L-203",
    meter: 148300,
    x: 148300,
    measure: "leak-down",
    attempt: 1,
    depot: "Lowmarsh",
    setUp: noSetUp,
    instrument: "LD-15, 1.5 mm",
    testedBy: "R. Ames",
    entered: [entry(1, 2, 8), entry(2, 2.9, 11), { ...entry(3, 9.8, 22), heardAt: ["exhaust"] }, entry(4, 2, 8)],
    referral: ["from a 1.5 mm restrictor to 1.016 mm"],
    doubts: [],
    file: "results-2026-08.csv",
    line: 14,
  },
  {
    date: "2025-07-28",
    unit: "L-203",
    meter: 101500,
    x: 101500,
    measure: "leak-down",
    attempt: 1,
    depot: "Lowmarsh",
    setUp: noSetUp,
    instrument: null,
    testedBy: "R. Ames",
    entered: [entry(1, 12, 12, 0), entry(2, 13, 13, 0), entry(3, 12, 12, 0), entry(4, 11, 11, 0)],
    referral: [],
    doubts: ["engine cold: all four up 6 points"],
    file: "results-2025.csv",
    line: 88,
  },
  {
    date: "2026-07-02",
    unit: "L-203",
    meter: 142000,
    x: 142000,
    measure: "compression-wet",
    attempt: 1,
    depot: "Lowmarsh",
    setUp: noSetUp,
    instrument: "hose gauge",
    testedBy: null,
    entered: [{ ...entry(3, 27.9, 2790), valueUnit: "bar" }],
    referral: ["from bar"],
    doubts: [],
    file: "results-2026-07.csv",
    line: 3,
  },
];

const cylinder = (n: number, band: Band, measures: MeasureAssessment[]): CylinderAssessment => ({
  cylinder: n,
  band,
  measures,
  causes: [{ cause: "rings-or-bore", probability: 1, because: ["some crankcase air in every test"], against: [] }],
  topEnd: 0,
  bottomEnd: 1,
  testSetUp: 0,
  reason: `Cylinder ${n} is ${band}.`,
});

export const diesel: UnitReport = {
  asOf: "2026-08-31",
  basis: { perDay: 117, meterUnit: "km", pools: [] },
  fromModel: null,
  together: null,
  assessment: {
    unit: "L-203",
    engineModel: "diesel-4-a",
    band: "plan",
    meter: { value: 148600, unit: "km", perDay: 117 },
    lastTestDate: "2026-08-24",
    cylinders: [
      cylinder(1, "sound", [
        judged("leak-down", 8, 28, "sound", never, { perThousand: 0.04, p10: 0.01, p90: 0.08 }),
        judged("compression-dry", 2790, 2300, "sound", never, { perThousand: -0.6, p10: -1, p90: -0.2 }),
      ]),
      cylinder(2, "watch", [
        judged("leak-down", 11, 28, "watch", never, { perThousand: 0.08, p10: 0.04, p90: 0.12 }),
        judged("compression-dry", 2740, 2300, "sound", never, { perThousand: -0.8, p10: -1.2, p90: -0.4 }),
      ]),
      {
        ...cylinder(3, "plan", [
          judged("leak-down", 22, 28, "plan", leakCrossing, { perThousand: 0.72, p10: 0.4, p90: 1.2 }),
          judged("compression-dry", 2640, 2300, "sound", never, { perThousand: -2.5, p10: -3.5, p90: -1.2 }),
        ]),
        causes: [
          {
            cause: "exhaust-valve",
            probability: 0.74,
            because: ["air heard at exhaust in 3 tests running", "9 to 22 % in 12,200 km while siblings moved 1 point"],
            against: ["compression is down only 7 %: usual, it lags leakage"],
          },
          {
            cause: "test-set-up",
            probability: 0.11,
            because: ["only one reading above 20 %"],
            against: ["repeat on the day read 21 %, TDC confirmed"],
          },
          {
            cause: "inlet-valve",
            probability: 0.08,
            because: ["same class of leak"],
            against: ["nothing heard at inlet"],
          },
          {
            cause: "rings-or-bore",
            probability: 0.05,
            because: ["some crankcase air in every test"],
            against: ["wet test rose 2 % only"],
          },
          {
            cause: "head-gasket",
            probability: 0.02,
            because: [],
            against: ["neighbours 2 and 4 hold; no coolant loss"],
          },
        ],
        topEnd: 0.84,
        bottomEnd: 0.05,
        testSetUp: 0.11,
      },
      cylinder(4, "sound", [
        judged("leak-down", 8, 28, "sound", never, { perThousand: 0.05, p10: 0.02, p90: 0.08 }),
        judged("compression-dry", 2800, 2300, "sound", never, { perThousand: -0.6, p10: -1, p90: -0.2 }),
      ]),
    ],
    repairs: { topEnd: leakCrossing, bottomEnd: never },
    warnings: [],
    engineSerial: "30-1187",
    reason: "Cylinder 3: 22 % leakage is past the plan level of 18 %.",
    questions: ["Was a top-end repair made before 21 January 2025 that is dearer than the file says?"],
    inDoubt: [],
    pools: ["diesel-4-a/km/1"],
  },
  depot: "Lowmarsh",
  unitClass: "light truck",
  status: "in-service",
  model: dieselModel,
  finding:
    "Top-end repair between late September 2026 and mid-February 2027, most likely in November. " +
    "Cylinder 3, probably the exhaust valve. Its leakage doubles every 8,000 km; the other three hold.",
  next: [
    {
      title: "Re-test cylinder 3 after a warm run",
      detail: "Listen at the exhaust manifold, not the tail pipe.",
      caution: "Open the air slowly.",
    },
    {
      title: "Measure its exhaust valve clearance",
      detail: "A tight valve is the cheapest cure: adjust, then test again.",
      caution: null,
    },
    { title: "Look at valve and seat by borescope", detail: "An uneven heat pattern settles it.", caution: null },
  ],
  howSure:
    "80 of 100 such ranges should hold the true date. Based on 10 tests of this engine and 8 sister engines. " +
    "One test of 2025 is not used: engine cold.",
  place: { title: "Cyl 3, exhaust valve", detail: "22 % leakage, limit 28" },
  testOverdue: false,
  nextTestDue: "2026-09-14",
  axisIsMeter: true,
  xNow: 148600,
  datesOnAxis: [
    { x: 24600, date: "2023-10-04" },
    { x: 64200, date: "2024-09-17" },
    { x: 101500, date: "2025-07-28" },
    { x: 148600, date: "2026-08-31" },
    { x: 362000, date: "2031-08-31" },
  ],
  charts: [
    {
      measure: "leak-down",
      unit: "%",
      limit: 28,
      plan: 18,
      watch: 10,
      cylinders: [1, 2, 3, 4].map((n) => dieselSeries("leak-down", n)),
    },
    {
      measure: "compression-dry",
      unit: "kPa",
      limit: 2300,
      plan: null,
      watch: null,
      cylinders: [1, 2, 3, 4].map((n) => dieselSeries("compression-dry", n)),
    },
  ],
  tests: dieselTests,
  repairs: [
    {
      date: "2024-11-14",
      x: 71200,
      meter: 71200,
      unit: "L-203",
      scope: "top-end",
      cylinders: [1, 2, 3, 4],
      words: "top-end repair, all cylinders; found: exhaust valve",
      cost: 2310,
      labourHours: 21,
      downtimeDays: null,
    },
  ],
  ...noMore,
  ageDays: { topEnd: 900, bottomEnd: 1270 },
  pastLimitOfModel: [],
  pastLimit: Array.from({ length: 31 }, (_, m) => ({
    date: `${2026 + Math.floor((8 + m) / 12)}-${String(((8 + m) % 12) + 1).padStart(2, "0")}-01`,
    topEnd: Math.min(1, m * 0.19),
    bottomEnd: (m / 60) ** 2,
  })),
};

// ---- the V8 --------------------------------------------------------------------------------------------------------

export const v8Model: EngineModel = {
  id: "petrol-v8-a",
  name: "5.4 litre V8, petrol",
  fuel: "petrol",
  cylinders: 8,
  neighbours: [
    [1, 2],
    [2, 3],
    [3, 4],
    [5, 6],
    [6, 7],
    [7, 8],
  ],
  layout: "v",
  aircraft: false,
  compression: { newKpa: 1300, minimumKpa: 950, spreadPercent: 25, spreadRule: "of-highest", referenceRpm: 200 },
};

const v8Occasions: readonly Occasion[] = [
  { x: 4050, date: "2023-11-20", life: 0 },
  { x: 4420, date: "2024-06-02", life: 1 },
  { x: 4800, date: "2024-12-10", life: 1 },
  { x: 5150, date: "2025-05-14", life: 1 },
  { x: 5420, date: "2025-09-02", life: 1, doubt: "slow cranking, 120 rpm" },
  { x: 5560, date: "2025-11-11", life: 1 },
  { x: 5900, date: "2026-04-22", life: 1 },
  { x: 6180, date: "2026-08-03", life: 1 },
];
const v8Values: Record<number, number[]> = {
  1: [1266, 1252, 1263, 1251, 1110, 1259, 1249, 1247],
  2: [1258, 1240, 1242, 1250, 1098, 1240, 1236, 1236],
  3: [1244, 1247, 1230, 1235, 1090, 1238, 1220, 1214],
  4: [1250, 1251, 1238, 1256, 1096, 1247, 1251, 1244],
  5: [1250, 1228, 1245, 1231, 1085, 1229, 1232, 1225],
  6: [1240, 1233, 1212, 1182, 998, 1121, 1064, 1010],
  7: [1262, 1259, 1240, 1248, 1094, 1251, 1230, 1232],
  8: [1248, 1222, 1238, 1228, 1072, 1231, 1215, 1221],
};
const v8Crossing: Crossing = {
  status: "projected",
  meter: { p10: 6440, p50: 6690, p90: 7130 },
  date: { p10: "2026-12-10", p50: "2027-04-12", p90: "2027-11-20" },
  probabilityWithinYear: 0.77,
};

export const v8: UnitReport = {
  ...diesel,
  assessment: {
    ...diesel.assessment,
    unit: "P-404",
    engineModel: "petrol-v8-a",
    meter: { value: 6240, unit: "h", perDay: 2 },
    lastTestDate: "2026-08-03",
    engineSerial: "54-0311",
    cylinders: [1, 2, 3, 4, 5, 6, 7, 8].map((n) => {
      const level = v8Values[n]?.[7] ?? 0;
      const weak = n === 6;
      const rate = { perThousand: weak ? -190 : -8, p10: weak ? -240 : -20, p90: weak ? -130 : 2 };
      const measure = judged("compression-dry", level, 950, weak ? "plan" : "sound", weak ? v8Crossing : never, rate);
      return {
        ...cylinder(n, weak ? "plan" : "sound", [measure]),
        causes: [
          {
            cause: "valve-timing" as const,
            probability: 1,
            because: ["compression down 18 %, leakage sound at 8 %"],
            against: [],
          },
        ],
        topEnd: 1,
        bottomEnd: 0,
      };
    }),
    repairs: { topEnd: v8Crossing, bottomEnd: never },
    questions: [],
  },
  depot: "Highcol",
  unitClass: "pump",
  model: v8Model,
  finding:
    "Top-end repair between December 2026 and November 2027, most likely in April. Cylinder 6 makes less pressure yet " +
    "leaks no more than the rest: valve timing or clearance, not wear.",
  next: [
    {
      title: "Measure lift and clearance on cylinder 6",
      detail: "A worn lobe, rocker or spring shows at once.",
      caution: null,
    },
  ],
  xNow: 6240,
  datesOnAxis: [
    { x: 4050, date: "2023-11-20" },
    { x: 5150, date: "2025-05-14" },
    { x: 6240, date: "2026-08-31" },
    { x: 9890, date: "2031-08-31" },
  ],
  charts: [
    {
      measure: "compression-dry",
      unit: "kPa",
      limit: 950,
      plan: null,
      watch: null,
      cylinders: [1, 2, 3, 4, 5, 6, 7, 8].map((n): CylinderSeries => {
        const values = v8Values[n] ?? [];
        const base = { cylinder: n, limit: 950, level: values[7] ?? null, points: points(v8Occasions, values, 22) };
        if (n !== 6) return { ...base, ...noFan, band: "sound" };
        const fan = [
          { x: 6240, p10: 985, p25: 995, p50: 1005, p75: 1014, p90: 1022 },
          { x: 6690, p10: 900, p25: 927, p50: 950, p75: 972, p90: 990 },
          { x: 7300, p10: 800, p25: 850, p50: 885, p75: 915, p90: 940 },
        ];
        return { ...base, band: "plan", fan, crossing: v8Crossing, crossingX: v8Crossing.meter };
      }),
    },
  ],
  tests: [
    {
      date: "2026-08-03",
      unit: "P-404",
      meter: 6180,
      x: 6180,
      measure: "compression-dry",
      attempt: 1,
      depot: "Lowmarsh",
      setUp: noSetUp,
      instrument: "hose gauge",
      testedBy: "T. Orr",
      entered: [1, 2, 3, 4, 5, 6, 7, 8].map((n) => ({
        cylinder: n,
        value: Math.round((v8Values[n]?.[7] ?? 0) * 0.83),
        valueUnit: "kPa" as const,
        supply: null,
        referred: v8Values[n]?.[7] ?? 0,
        weight: 1,
        heardAt: [],
        order: null,
        remarks: null,
      })),
      referral: ["from 1,850 m to sea level"],
      doubts: [],
      file: "results-2026-08.csv",
      line: 40,
    },
  ],
  repairs: [
    {
      date: "2024-04-02",
      x: 4310,
      meter: 4310,
      unit: "L-203",
      scope: "engine-swap",
      cylinders: [],
      words: "engine swap; engine 54-0311 came in",
      cost: null,
      labourHours: 18,
      downtimeDays: null,
    },
  ],
};

/** A unit on the books that nobody has tested. */
export const neverTested: UnitReport = {
  ...diesel,
  assessment: {
    ...diesel.assessment,
    unit: "H-306",
    band: null,
    lastTestDate: null,
    cylinders: [1, 2, 3, 4].map((n) => ({
      cylinder: n,
      band: null,
      measures: [],
      causes: [],
      topEnd: 0,
      bottomEnd: 0,
      testSetUp: 1,
      reason: "Never tested.",
    })),
    questions: [],
    repairs: { topEnd: { ...never, status: "too-few-tests" }, bottomEnd: { ...never, status: "too-few-tests" } },
  },
  finding: "Never tested, so there is no forecast of its own.",
  next: [
    { title: "Book a baseline leak-down test", detail: "One test gives a level; three give a range.", caution: null },
  ],
  howSure: "Not at all yet: what sister engines did is all there is to go by.",
  place: { title: "never tested", detail: "" },
  nextTestDue: null,
  charts: [],
  tests: [],
  repairs: [],
  ...noMore,
  pastLimit: [],
};

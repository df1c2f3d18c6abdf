import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { loadDemo } from "@/app/_jobs/demo.ts";
import { previewBands } from "@/app/_jobs/preview-bands.ts";
import { recordFacts, seenOf, testOf } from "@/app/_jobs/record-facts.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { unitRow } from "@/app/_ui/recording/status-form.ts";
import { historySteps } from "@/app/_ui/recording/test-words.ts";
import { unitReport } from "@/db/assessments.ts";
import { unitsConnectedTo } from "@/db/connected.ts";
import { engineNow, unitsFittedWith } from "@/db/engines-now.ts";
import { fleetFacts } from "@/db/facts.ts";
import { statusHistory } from "@/db/status-history.ts";
import { openStore, type Store } from "@/db/store.ts";
import { testHistories, testHistoryKey } from "@/db/test-history.ts";
import type { Told } from "@/lib/outtake/contract-csv.ts";
import type { TestFact } from "@/lib/schema/facts.ts";
import { checkFact, judgementFact, meterFact, repairFact } from "../../lib/sealing/facts.ts";
import { act, demoFolder, everything, now } from "../jobs/made-up-files.ts";

/** What each form keeps: exactly the units that it tells of are assessed anew, as foreseen, and its undo brings all back. */

let store: Store;
let before: Awaited<ReturnType<typeof everything>>;
const bytes = (value: unknown) => JSON.stringify(value);

beforeAll(async () => {
  store = await openStore(":memory:");
  await loadDemo(store, demoFolder, now);
  before = await everything(store);
}, 120_000);

afterAll(() => store.close());

const reportsBy = async () =>
  new Map((await everything(store)).reports.map((report) => [report?.assessment.unit, bytes(report)]));

const f = { number: (value: number) => String(value) };
const last = async (unit: string): Promise<TestFact> =>
  (await fleetFacts(store, { units: [unit] })).tests.filter((one) => one.test === "leak-down").at(-1)!;

const day = "2026-08-30";
const forms: readonly (readonly [string, readonly string[], () => Promise<Told>])[] = [
  [
    "a repair with findings",
    ["V-109"],
    async () => ({
      repairs: [
        repairFact({
          unit: "V-109",
          date: day,
          meter: 400_000,
          cylinders: [2, 3],
          found: ["head-gasket"],
          findings: [
            { cylinder: 2, causes: ["head-gasket"] },
            { cylinder: 3, causes: [] },
          ],
        }),
      ],
    }),
  ],
  [
    "other evidence",
    ["V-109"],
    async () => ({
      checks: [checkFact({ unit: "V-109", date: day, check: "combustion-gas-in-coolant", result: "fault" })],
    }),
  ],
  [
    "a meter reading",
    ["V-109"],
    async () => ({ meterReadings: [meterFact({ unit: "V-109", date: day, meter: 500_000 })] }),
  ],
  [
    "a new meter",
    ["V-109"],
    async () => ({
      meterReadings: [
        meterFact({ unit: "V-109", date: day, meter: 500_000 }),
        meterFact({ unit: "V-109", date: day, meter: 0, meterReset: true }),
      ],
    }),
  ],
  [
    "a status",
    ["V-109"],
    async () => ({ units: [unitRow("V-109", { status: "stopped", statusReason: "gearbox out" })] }),
  ],
  [
    "a swap between two units",
    ["V-109", "V-110"],
    async () => {
      const [one, two] = await Promise.all([engineNow(store, "V-109"), engineNow(store, "V-110")]);
      const swap = { date: day, scope: "engine-swap" } as const;
      return {
        units: [
          ...(one?.serial == null ? [unitRow("V-109", { engineSerial: "E-109" })] : []),
          ...(two?.serial == null ? [unitRow("V-110", { engineSerial: "E-110" })] : []),
        ],
        repairs: [
          repairFact({ ...swap, unit: "V-109", meter: 400_000, engineSerial: two?.serial ?? "E-110" }),
          repairFact({ ...swap, unit: "V-110", meter: 400_000, engineSerial: one?.serial ?? "E-109" }),
        ],
      };
    },
  ],
  [
    "a test set aside",
    ["V-109"],
    async () => {
      const { date, instrument } = await last("V-109");
      return { judgements: [judgementFact({ unit: "V-109", date, instrument, reason: "hose leaked" })] };
    },
  ],
  [
    "a corrected test",
    ["V-109"],
    async () => {
      const test = await last("V-109");
      return { tests: [{ ...test, readings: test.readings.slice(0, 1).map((one) => ({ ...one, value: 41 })) }] };
    },
  ],
];

describe.each(forms)("%s", (title, units, told) => {
  it("touches its units alone, as foreseen, and is undone without a trace", async () => {
    const facts = await told();
    const wasBy = await reportsBy();
    const touched = await unitsConnectedTo(store, units);
    const foreseen = await previewBands(store, { told: facts }, act);
    expect(foreseen.units).toBe(touched.length);
    expect(bytes(await everything(store))).toBe(bytes(before));

    const kept = await recordFacts(store, { title, told: facts }, act);
    expect(kept.units).toBe(touched.length);
    const isBy = await reportsBy();
    const changed = [...isBy.keys()].filter((unit) => isBy.get(unit) !== wasBy.get(unit));
    expect(changed.sort()).toEqual([...units]);
    for (const { unit, after } of foreseen.changes) {
      expect((await unitReport(store, unit))?.assessment.band, unit).toBe(after.band);
    }
    await expect(recordFacts(store, { title, told: facts }, act)).rejects.toThrow("Nothing differs");

    await undoImport(store, kept.import, { ...act, by: "B. Clerk" });
    expect(bytes((await everything(store)).reports)).toBe(bytes(before.reports));
  }, 60_000);
});

it("a swap carries the wear history to the other unit", async () => {
  const [, , told] = forms[5]!;
  const facts = await told();
  const serial = facts.repairs?.[0]?.engineSerial ?? "";
  const kept = await recordFacts(store, { title: "swap", told: facts }, act);
  expect((await unitsFittedWith(store, [serial])).get(serial)).toBe("V-109");
  const tests = (await unitReport(store, "V-109"))?.tests ?? [];
  expect(new Set(tests.map(({ unit }) => unit))).toEqual(new Set(["V-110"]));
  await undoImport(store, kept.import, act);
});

it("a judgement names who and why, and a test's history keeps old and new, also of what was undone", async () => {
  const test = await last("V-109");
  const { unit, date, instrument } = test;
  const was = test.readings[0]?.value;
  const aside = await recordFacts(
    store,
    {
      title: "aside",
      told: { judgements: [judgementFact({ unit, date, instrument, reason: "hose leaked", judgedBy: act.by })] },
    },
    act,
  );
  const line = (await unitReport(store, unit))?.tests.find((one) => one.date === date && one.measure === "leak-down");
  expect(line?.doubts[0]).toBe(`set aside by ${act.by}: hose leaked`);
  expect(line?.entered.every(({ weight }) => weight === 0)).toBe(true);
  const corrects = { ...test, seen: seenOf(test) };
  const other = { ...test, readings: [{ ...test.readings[0]!, value: 41 }] };
  const correction = { title: `${unit}: corrected: misread`, told: { tests: [other] }, corrects };
  const corrected = await recordFacts(store, correction, act);
  expect((await testOf(store, test))?.readings.map(({ value }) => value)).toEqual([
    41,
    ...test.readings.slice(1).map(({ value }) => value),
  ]);
  // Somebody who still saw the old values is told so.
  const late = { ...other, readings: [{ ...other.readings[0]!, value: 12 }] };
  await expect(recordFacts(store, { ...correction, told: { tests: [late] } }, act)).rejects.toThrow(
    "The test was changed by somebody else meanwhile",
  );
  await undoImport(store, corrected.import, { ...act, by: "B. Clerk" });
  await undoImport(store, aside.import, act);
  const steps = historySteps((await testHistories(store, [unit])).get(testHistoryKey(test)) ?? [], f);
  const ours = steps.slice(-2);
  expect(ours.map(({ what, why, undone }) => [what, why, undone?.by])).toEqual([
    ["the test set aside", "hose leaked", act.by],
    [`corrected: cylinder 1: ${was} % to 41 %`, "misread", "B. Clerk"],
  ]);
});

it("of two presses one is kept", async () => {
  const told = { meterReadings: [meterFact({ unit: "V-109", date: day, meter: 555_000 })] };
  const both = await Promise.allSettled([1, 2].map(() => recordFacts(store, { title: "twice", told }, act)));
  const kept = both.flatMap((one) => (one.status === "fulfilled" ? [one.value.import] : []));
  expect(kept).toHaveLength(1);
  for (const id of kept) await undoImport(store, id, act);
});

it("a status keeps who and why, the latest first, also what was undone", async () => {
  const told = { units: [unitRow("V-112", { status: "stopped", statusReason: "brakes" })] };
  const kept = await recordFacts(store, { title: "stop", told }, act);
  expect((await statusHistory(store, "V-112"))[0]).toMatchObject({
    status: "stopped",
    reason: "brakes",
    by: act.by,
    undoneBy: null,
  });
  await undoImport(store, kept.import, act);
  expect((await statusHistory(store, "V-112"))[0]).toMatchObject({ status: "stopped", undoneBy: act.by });
});

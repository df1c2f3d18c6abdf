import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { previewBands } from "@/app/_jobs/preview-bands.ts";
import { recordFacts, seenOf, testOf } from "@/app/_jobs/record-facts.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { correctionFacts } from "@/app/_ui/recording/correction-facts.ts";
import { type CorrectionFields, correctionFieldsOf, fromOtherEnd } from "@/app/_ui/recording/correction-fields.ts";
import { readCorrection } from "@/app/_ui/recording/correction-form.ts";
import { unitRow } from "@/app/_ui/recording/status-form.ts";
import { historySteps } from "@/app/_ui/recording/test-words.ts";
import { withdrawnTests } from "@/app/_ui/recording/withdrawn.ts";
import { unitReport } from "@/db/assessments.ts";
import { unitsConnectedTo } from "@/db/connected.ts";
import { disposalHistory } from "@/db/disposal-history.ts";
import { engineNow, unitsFittedWith } from "@/db/engines-now.ts";
import { fleetFacts } from "@/db/facts.ts";
import { statusHistory } from "@/db/status-history.ts";
import type { Store } from "@/db/store.ts";
import { testHistories, testHistoryKey } from "@/db/test-history.ts";
import type { Told } from "@/lib/outtake/contract-csv.ts";
import type { TestFact } from "@/lib/schema/facts.ts";
import { checkFact, judgementFact, meterFact, repairFact } from "../../lib/sealing/facts.ts";
import { openDemoStore } from "../jobs/demo-store.ts";
import { act, everything } from "../jobs/made-up-files.ts";

/** What each form keeps: exactly the units that it tells of are assessed anew, as foreseen, and its undo brings all back. */

let store: Store;
let before: Awaited<ReturnType<typeof everything>>;
const bytes = (value: unknown) => JSON.stringify(value);

beforeAll(async () => {
  store = await openDemoStore();
  before = await everything(store);
}, 120_000);

afterAll(() => store.close());

const reportsBy = async () =>
  new Map((await everything(store)).reports.map((report) => [report?.assessment.unit, bytes(report)]));

const f = { number: (value: number) => String(value), date: (date: string) => date };
const last = async (unit: string): Promise<TestFact> =>
  (await fleetFacts(store, { units: [unit] })).tests.filter((one) => one.test === "leak-down").at(-1)!;

const day = "2026-08-30";
/** The test as a person corrects it by the form. */
async function corrected(test: TestFact, more: (fields: CorrectionFields) => Partial<CorrectionFields>) {
  const standing = await testOf(store, test);
  const blank = correctionFieldsOf(standing!.test, seenOf(standing!.test));
  const context = { unit: test.unit, cylinders: 4, latest: "2026-08-31", sign: ".", by: act.by } as const;
  const read = readCorrection({ ...blank, reason: "misread", ...more(blank) }, standing!.test, context);
  if (!read.ok) throw new Error(bytes(read.problems));
  return correctionFacts(read.value, standing!.test, { judged: standing!.judged, by: act.by });
}

type Form = readonly [string, readonly string[], () => Promise<Told & { readonly tellsWhole?: boolean }>];
const forms: readonly Form[] = [
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
  [
    "a test counted from the other end, its set-up not recorded after all",
    ["V-109"],
    async () => {
      const { told, tellsWhole } = await corrected(await last("V-109"), ({ readings }) => ({
        readings: fromOtherEnd(readings, 4).map((one) => ({ ...one, order: "", remarks: "" })),
        warm: "",
        asInstrument: "",
        orificeMm: "",
      }));
      return { ...told, tellsWhole };
    },
  ],
  [
    "a test of another day and meter",
    ["V-109"],
    async () => {
      const test = await last("V-109");
      return (await corrected(test, () => ({ asDate: "2026-08-29", meter: String(test.meter + 2000) }))).told;
    },
  ],
  [
    "a test of another unit",
    ["V-109", "V-110"],
    async () => {
      const meter = (await last("V-110")).meter + 500;
      const as = { asUnit: "V-110", asDate: "2026-08-29", meter: String(meter), engineSerial: "" };
      return (await corrected(await last("V-109"), () => as)).told;
    },
  ],
];

describe.each(forms)("%s", (title, units, tell) => {
  it("touches its units alone, as foreseen, and is undone without a trace", async () => {
    const { tellsWhole = false, ...told } = await tell();
    const wasBy = await reportsBy();
    const touched = await unitsConnectedTo(store, units);
    const foreseen = await previewBands(store, { told, tellsWhole }, act);
    expect(foreseen.units).toBe(touched.length);
    expect(bytes(await everything(store))).toBe(bytes(before));

    const kept = await recordFacts(store, { title, told, tellsWhole }, act);
    expect(kept.units).toBe(touched.length);
    const isBy = await reportsBy();
    const changed = [...isBy.keys()].filter((unit) => isBy.get(unit) !== wasBy.get(unit));
    expect(changed.sort()).toEqual([...units]);
    for (const { unit, after } of foreseen.changes) {
      expect((await unitReport(store, unit))?.assessment.band, unit).toBe(after.band);
    }
    await expect(recordFacts(store, { title, told, tellsWhole }, act)).rejects.toThrow("Nothing differs");

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
  expect((await testOf(store, test))?.test.readings.map(({ value }) => value)).toEqual([
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

it("a test told again under another name carries its history on, and what was withdrawn counts nowhere", async () => {
  const test = await last("V-109");
  const { unit, date, instrument } = test;
  const aside = { judgements: [judgementFact({ unit, date, instrument, reason: "hose leaked", judgedBy: "W. Lead" })] };
  const judged = await recordFacts(store, { title: "aside", told: aside }, act);
  const as = { asDate: "2026-08-29", meter: String(test.meter + 1) };
  const { told } = await corrected(test, () => as);
  const right = { ...test, date: as.asDate };
  const title = `${unit}: leak-down of ${date} corrected: another day`;
  const kept = await recordFacts(store, { title, told, asNew: right }, act);
  const report = await unitReport(store, unit);
  const lines = report?.tests.filter(({ measure }) => measure === "leak-down") ?? [];
  expect(lines.some((line) => line.date === date)).toBe(false);
  expect(lines.find((line) => line.date === as.asDate)).toMatchObject({
    meter: test.meter + 1,
    doubts: ["set aside by W. Lead: hose leaked"],
  });
  expect(report?.assessment.warnings.join()).not.toMatch(/judgement|meter/);
  const histories = await testHistories(store, [unit]);
  const steps = historySteps(histories.get(testHistoryKey(right)) ?? [], f);
  expect(steps.slice(-1).map(({ what, why }) => [what, why])).toEqual([
    [`corrected: date: ${date} to ${as.asDate}; meter: ${test.meter} to ${test.meter + 1}`, "another day"],
  ]);
  expect(steps.map(({ what }) => what)).toContain("the test set aside, judged by W. Lead");
  expect(withdrawnTests(histories, unit).map((one) => [one.test.date, one.withdrawal.toldAs?.date])).toEqual([
    [date, as.asDate],
  ]);
  // The file that told it first changes nothing, and nobody tells another one in the place of the new one unseen.
  await expect(recordFacts(store, { title, told: { tests: [test] } }, act)).rejects.toThrow("Nothing differs");
  await expect(recordFacts(store, { title, told, asNew: right }, act)).rejects.toThrow("changed by somebody else");
  await undoImport(store, kept.import, act);
  expect((await testOf(store, right)) === null).toBe(true);
  expect(withdrawnTests(await testHistories(store, [unit]), unit)).toEqual([]);
  await undoImport(store, judged.import, act);
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

it("a planned disposal is kept with who told it, counts in the unit's forecast, and is gone with its undo", async () => {
  const told = { units: [unitRow("V-112", { disposalDate: "2026-12-31" })] };
  const was = (await unitReport(store, "V-112"))?.assessment;
  const kept = await recordFacts(store, { title: "to be sold", told }, act);
  expect((await unitReport(store, "V-112"))?.assessment.soldBefore?.date).toBe("2026-12-31");
  expect((await disposalHistory(store, "V-112"))[0]).toMatchObject({ date: "2026-12-31", by: act.by, undoneBy: null });
  await undoImport(store, kept.import, act);
  expect((await unitReport(store, "V-112"))?.assessment).toEqual(was);
  expect((await disposalHistory(store, "V-112"))[0]).toMatchObject({ date: "2026-12-31", undoneBy: act.by });
});

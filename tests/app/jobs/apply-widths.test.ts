import { beforeAll, expect, test } from "vitest";
import { applyWidths } from "@/app/_jobs/apply-widths.ts";
import { JobError } from "@/app/_jobs/job-registry.ts";
import { asFleetPools, keptPools } from "@/app/_jobs/kept-pools.ts";
import type { Progress } from "@/app/_jobs/progress.ts";
import { reassess } from "@/app/_jobs/reassess.ts";
import { reassessDay } from "@/app/_jobs/reassess-day.ts";
import { recordAnew } from "@/app/_jobs/record-anew.ts";
import { assessmentHistory, unitNames, unitReport } from "@/db/assessments.ts";
import { factsVersion, isBehindFacts } from "@/db/meta.ts";
import { poolOf } from "@/db/pools.ts";
import type { Store } from "@/db/store.ts";
import { issuedSpan, keptTrackRecord, trackCases } from "@/db/track-record.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { openDemoStore } from "./demo-store.ts";
import { act, everything } from "./made-up-files.ts";

let store: Store;
let version: number;

beforeAll(async () => {
  store = await openDemoStore();
  version = await factsVersion(store, store.q);
  return () => store.close();
}, 60_000);

const issued = async () => (await issuedSpan(store)).assessments;
const widthsInForce = async () => asFleetPools(await keptPools(store)).widths ?? [];
const kind = { engineModel: "petrol-4-a", measure: "leak-down", meterUnit: "km" } as const;
const apply = (factor: number) => applyWidths(store, { widths: [{ ...kind, factor }], version }, act);

test("a factor has the units of its kind assessed anew, once; without it they are told as before", async () => {
  const before = await everything(store);
  const told = new Map(
    await Promise.all((await unitNames(store)).map(async (u) => [u, await unitReport(store, u)] as const)),
  );
  const ofKind = [...told].filter(([, report]) => report?.model.id === kind.engineModel).map(([unit]) => unit);
  const first = await issued();

  expect(await apply(1.3)).toBe(ofKind.length);
  expect(await widthsInForce()).toEqual([{ ...kind, factor: 1.3 }]);
  expect(await issued()).toBe(first + ofKind.length);
  const [unit = ""] = ofKind;
  const wide = await unitReport(store, unit);
  expect(wide?.howSure).toContain("Ranges of leak-down are widened by 30 %");
  const [last] = await assessmentHistory(store, unit, 1);
  expect(last?.because).toBe("pool");
  for (const pool of last?.assessment.pools ?? []) expect(await poolOf(store, pool)).not.toBeNull();

  expect(await apply(1.3)).toBe(0);
  expect(await apply(1.31)).toBe(0);
  expect(await issued()).toBe(first + ofKind.length);

  // Pools that are fitted anew keep it.
  await reassess(store, { units: [unit], because: "settings", pools: "all" }, act);
  expect(await widthsInForce()).toEqual([{ ...kind, factor: 1.3 }]);
  expect((await unitReport(store, unit))?.howSure).toBe(wide?.howSure);

  expect(await apply(1)).toBe(ofKind.length);
  expect(await widthsInForce()).toEqual([]);
  expect(JSON.stringify(await everything(store))).toBe(JSON.stringify(before));
}, 60_000);

test("ended in between, no report names a pool that was never kept, and the rest is made good later", async () => {
  expect(await isBehindFacts(store)).toBe(false);
  const stop = new AbortController();
  const onProgress = ({ phase, units }: Progress) => {
    if (phase === "assessing" && units >= 11) stop.abort(new JobError("Cancelled."));
  };
  const asked = { widths: [{ ...kind, factor: 1.3 }], version };
  await expect(applyWidths(store, asked, act, { signal: stop.signal, onProgress })).rejects.toThrow("Cancelled.");
  const names = await unitNames(store);
  const ofKind = async () =>
    (await Promise.all(names.map((unit) => unitReport(store, unit)))).flatMap((report) =>
      report?.model.id === kind.engineModel ? [report] : [],
    );
  const isWidened = ({ howSure }: UnitReport) => howSure.includes("widened by 30 %");
  const half = await ofKind();
  expect(half.some(isWidened)).toBe(true);
  expect(half.every(isWidened)).toBe(false);
  for (const { assessment } of half) {
    for (const pool of assessment.pools) expect(await poolOf(store, pool)).not.toBeNull();
  }
  expect(await isBehindFacts(store)).toBe(true);

  // Also where the next record asks for nothing that differs.
  expect(await applyWidths(store, asked, act)).toBe(0);
  expect(await isBehindFacts(store)).toBe(true);
  expect(await reassessDay(store, act)).not.toBeNull();
  expect(await isBehindFacts(store)).toBe(false);
  expect((await ofKind()).every(isWidened)).toBe(true);

  await apply(1);
  expect(await isBehindFacts(store)).toBe(false);
}, 60_000);

test("factors of facts that are gone change nothing", async () => {
  expect(await applyWidths(store, { widths: [{ ...kind, factor: 1.3 }], version: version + 1 }, act)).toBeNull();
  expect(await widthsInForce()).toEqual([]);
});

test("a record puts its factors in force, and is the same when it is made again under them", async () => {
  expect(await recordAnew(store, act)).toBe(true);
  const record = (await keptTrackRecord(store))?.record;
  const cases = await trackCases(store);
  const inForce = await widthsInForce();
  expect(inForce.length).toBeGreaterThan(0);
  for (const { factor, ...of } of inForce) {
    expect(record?.calibration).toContainEqual(expect.objectContaining({ ...of, factor }));
  }
  const before = await issued();
  expect(await recordAnew(store, act)).toBe(false);
  await store.q.delete(store.trackRecords);
  expect(await recordAnew(store, act)).toBe(true);
  expect((await keptTrackRecord(store))?.record.calibration).toEqual(record?.calibration);
  expect(await trackCases(store)).toEqual(cases);
  expect(await widthsInForce()).toEqual(inForce);
  expect(await issued()).toBe(before);
}, 120_000);

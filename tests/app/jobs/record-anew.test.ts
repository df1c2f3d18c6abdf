import { beforeAll, describe, expect, test } from "vitest";
import { forecastVersion } from "@/app/_jobs/forecast-version.ts";
import { rebuild } from "@/app/_jobs/rebuild.ts";
import { recordAnew, recordDue } from "@/app/_jobs/record-anew.ts";
import { recordFinding } from "@/app/_ui/record/record-words.ts";
import { limitsTable, readingsOfGroup, readingsTable, scoresTable } from "@/app/_ui/record/track-record-files.ts";
import { assessmentHistory } from "@/db/assessments.ts";
import { changeSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { issuedAfterTests, issuedSpan, type KeptRecord, keptTrackRecord, trackCases } from "@/db/track-record.ts";
import { trackRecordSchema } from "@/lib/schema/track-record.ts";
import { backTestOf } from "@/lib/track/back-test.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { asOf, readDemo } from "../../lib/demo-fleet.ts";
import { settings } from "../../lib/track/made-up-fleet.ts";
import { openDemoStore } from "./demo-store.ts";
import { act, newStore } from "./made-up-files.ts";

let store: Store;
let kept: KeptRecord;

beforeAll(async () => {
  store = await openDemoStore();
  expect(await recordDue(store)).not.toBeNull();
  expect(await recordAnew(store, act)).toBe(true);
  kept = (await keptTrackRecord(store)) as KeptRecord;
  return () => store.close();
}, 120_000);

const f = formatsOf(plainPreferences);

describe("the record that the store keeps", () => {
  test("says of the demo fleet what its files say", async () => {
    expect(trackRecordSchema.parse(kept.record)).toEqual(kept.record);
    const ofFiles = backTestOf((await readDemo()).facts, { asOf, settings }, 40);
    const { levels, limits } = await trackCases(store);
    expect(levels).toEqual(JSON.parse(JSON.stringify(ofFiles.levels)));
    expect(limits).toEqual(JSON.parse(JSON.stringify(ofFiles.limits)));
  });

  test("is made anew when settings or facts change, and not otherwise", async () => {
    expect(await recordDue(store)).toBeNull();
    expect(await recordAnew(store, act)).toBe(false);
    await changeSettings(store, { horizonYears: 4 }, { by: act.by, at: act.now.toISOString() });
    expect(await recordDue(store)).not.toBeNull();
    await changeSettings(store, { horizonYears: 5 }, { by: act.by, at: act.now.toISOString() });
    expect(await recordDue(store)).toBeNull();
  });

  test("is made anew when the program has come to forecast in another way", async () => {
    const old = await newStore();
    await recordAnew(old, act);
    const { forecast, ...rest } = JSON.parse((await keptTrackRecord(old))?.basis ?? "{}");
    expect(forecast).toEqual(forecastVersion);
    for (const last of [{ wear: forecast.wear - 1 }, { use: forecast.use - 1 }]) {
      const basis = JSON.stringify({ ...rest, forecast: { ...forecast, ...last } });
      await old.q.update(old.trackRecords).set({ basis });
      expect(await recordDue(old)).not.toBeNull();
      expect(await recordAnew(old, act)).toBe(true);
      expect(await recordDue(old)).toBeNull();
    }
  });

  test("of another form than this program knows is not shown, and is made anew", async () => {
    const old = await newStore();
    await recordAnew(old, act);
    await old.q.update(old.trackRecords).set({ format: 0 });
    expect(await keptTrackRecord(old)).toBeNull();
    expect(await recordDue(old)).not.toBeNull();
    expect(await recordAnew(old, act)).toBe(true);
    expect(await keptTrackRecord(old)).not.toBeNull();
  });

  test("knows what was issued, each last test once, and that nothing came after it", async () => {
    expect(kept.record.issued).toMatchObject({ assessments: 40, from: asOf, to: asOf, forecasts: 0 });
    const [first] = await issuedAfterTests(store, ["V-104"]);
    // Issued again with the factors that the record asks for: the first issue is what was told after the test.
    const row = (await assessmentHistory(store, "V-104", 9)).at(-1);
    expect(first).toMatchObject({ unit: "V-104", asOf, meter: row?.assessment.meter });
    expect(first?.cylinders[0]?.measures).toEqual(row?.assessment.cylinders[0]?.measures);
  });

  test("goes with a rebuild, and is made again the same", async () => {
    const before = kept.record;
    const { assessments } = await issuedSpan(store);
    await rebuild(store, act);
    expect(await keptTrackRecord(store)).toBeNull();
    expect(await recordAnew(store, act)).toBe(true);
    const { issued, ...rest } = (await keptTrackRecord(store))?.record ?? {};
    const { issued: _, ...restBefore } = before;
    expect(rest).toEqual(restBefore);
    // A rebuild issues anew; the first issue after each test still stands.
    expect(issued?.assessments).toBe(assessments + 40);
  });
});

describe("as a page and as files", () => {
  test("the finding tells the share of each kind of test", () => {
    expect(recordFinding(f, kept.record)).toMatch(/^Ranges meant to hold 80 in 100 held \d+\s% .* and \d+\s% /);
    expect(recordFinding(f, { ...kept.record, forecasts: 0 })).toBe("No forecast can be judged yet.");
  });

  test("every reading behind a figure is in its file", async () => {
    const { levels, limits } = await trackCases(store);
    const [leakDown] = kept.record.levels;
    for (const [by, groups] of [
      ["ahead", leakDown?.byAhead],
      ["model", leakDown?.byModel],
      ["tester", leakDown?.byTester],
      ["depot", leakDown?.byDepot],
    ] as const) {
      for (const { key, scores } of groups ?? []) {
        const some = readingsOfGroup(levels, { measure: "leak-down", by, key });
        expect(some.length, `${by} ${key}`).toBe(scores.borecast?.readings ?? 0);
      }
    }
    expect(readingsTable(levels).rows).toHaveLength(levels.length);
    expect(limitsTable(limits).rows).toHaveLength(limits.length);
    const scores = scoresTable(kept.record);
    expect(new Set(scores.head).size).toBe(scores.head.length);
    expect(scores.rows.length).toBeGreaterThan(50);
  });

  test("an empty store has a record that tells nothing", async () => {
    const empty = await newStore();
    expect(await recordAnew(empty, act)).toBe(true);
    expect((await keptTrackRecord(empty))?.record).toMatchObject({ forecasts: 0, levels: [], units: { known: 0 } });
  });
});

import { describe, expect, it } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import type { ImportSource } from "@/app/_jobs/import-source.ts";
import type { Phase } from "@/app/_jobs/phases.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { fleetFacts } from "@/db/facts.ts";
import { importIssues, listImports } from "@/db/imports.ts";
import { changeSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { factAssembler } from "@/lib/intake/assemble.ts";
import { readFleetFile } from "@/lib/intake/read-file.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type { RowIssue } from "@/lib/schema/intake.ts";
import { act, csv, history, line, modelsFile, newStore, now, source, take } from "./made-up-files.ts";

const issuesOf = async (store: Store, id: string) =>
  (await importIssues(store, id, { offset: 0, limit: 1000 })).issues.map(({ file, line, severity, words }) => ({
    file,
    line,
    severity,
    words,
  }));

/** What `assess` makes of the same files. */
async function assembled(files: readonly ImportSource[]) {
  const models = new Map<string, EngineModel>();
  const known = { models, units: new Map(), today: null };
  const assembler = factAssembler(known);
  const issues: RowIssue[] = [];
  for (const { name, open } of [modelsFile, ...files]) {
    for await (const chunk of readFleetFile({ source: open(), file: name, known })) {
      for (const model of chunk.models) models.set(model.id, model);
      issues.push(...chunk.issues);
      assembler.add(chunk);
    }
  }
  const { facts, issues: more } = assembler.finish();
  return { facts, issues: [...issues, ...more] };
}

const messy = [
  source(
    "first.csv",
    csv([
      ...history("B-1"),
      line({ unit: "B-1", date: "2024-02-10", meter: 1000, cylinder: 9, value: 5 }),
      line({ unit: "B-2", date: "2025-01-01", meter: 50, cylinder: 1, value: 950 }),
      line({ unit: "B-2", date: "2025-01-01", meter: 50, cylinder: 2, value: 9 }),
      line({ unit: "B-2", date: "2025-01-01", meter: 50, cylinder: 2, value: 9 }),
      line({ unit: "B-2", date: "2025-01-01", meter: 50, cylinder: 3, value: 9 }),
      line({ unit: "B-2", date: "2025-02-01", meter: 40, cylinder: 3, value: 9 }),
    ]),
  ),
  source(
    "second.csv",
    csv([
      line({ unit: "B-2", date: "2025-01-01", meter: 50, cylinder: 3, value: 11 }),
      line({ unit: "B-2", date: "2025-01-01", meter: 50, cylinder: 4, value: 12 }),
    ]),
  ),
  source(
    "repairs.csv",
    "unit,repair_date,meter,scope,cylinders\nB-1,2025-03-01,1900,top-end,all\nB-9,2025-03-01,1,top-end,all\n",
  ),
  source("meters.csv", "unit,reading_date,meter,meter_reset\nB-1,2026-05-10,2800,\nB-1,2026-05-10,2790,\n"),
];

describe("staging files", () => {
  it("accepts and refuses exactly what assess accepts and refuses", async () => {
    const store = await newStore();
    const { id, refusedRows } = await stageImport(store, [...messy, modelsFile], act);
    const expected = await assembled(messy);
    const told = expected.issues.map(({ file, line, severity, words }) => ({ file, line, severity, words }));
    expect(new Set((await issuesOf(store, id)).map((issue) => JSON.stringify(issue)))).toEqual(
      new Set(told.map((issue) => JSON.stringify(issue))),
    );
    expect(refusedRows).toBe(6);
    await commitImport(store, id, { ...act, takeChanges: false });
    const facts = await fleetFacts(store);
    expect(facts).toEqual({ ...expected.facts, models: facts.models });
    expect(facts.tests.flatMap((test) => test.readings).length).toBe(22);
    expect(facts.tests.find((test) => test.unit === "B-2")?.readings).toMatchObject([
      { cylinder: 2, line: 24 },
      { cylinder: 4, line: 3, file: "second.csv" },
    ]);
  });

  it("comes to the same facts whatever the order of files", async () => {
    const [a, b] = [await newStore(), await newStore()];
    await take(a, [modelsFile, ...messy]);
    await take(b, [...messy.toReversed(), modelsFile]);
    expect(await fleetFacts(b)).toEqual(await fleetFacts(a));
  });

  it("judges rows beside what the store knows of their unit", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(history("B-1")))]);
    const late = [
      line({ unit: "B-1", date: "2026-03-01", meter: 100, cylinder: 1, value: 9 }),
      line({ unit: "B-1", date: "2026-03-02", meter: 2700, cylinder: 1, value: 9 }).replace(",h,", ",km,"),
      line({ unit: "B-1", date: "2026-03-03", meter: 2800, cylinder: 1, value: 9 }).replace("petrol-4-a", ""),
    ];
    const { id, newRows, refusedRows } = await stageImport(store, [source("b.csv", csv(late))], act);
    expect({ newRows, refusedRows }).toEqual({ newRows: 1, refusedRows: 2 });
    expect((await issuesOf(store, id)).map((issue) => issue.words)).toEqual([
      expect.stringContaining("the meter 100 h is lower than 2,600 h"),
      expect.stringContaining("keeps its meter in h, not km"),
    ]);
  });

  it("takes a corrected meter, and what follows it, without holding them against the slip", async () => {
    const store = await newStore();
    const slip = line({ unit: "B-1", date: "2026-03-01", meter: 99_000, cylinder: 1, value: 9 });
    const right = slip.replace("99000", "2700");
    const next = line({ unit: "B-1", date: "2026-04-01", meter: 2750, cylinder: 1, value: 9 });
    await take(store, [modelsFile, source("a.csv", csv([slip]))]);
    const { newRows, changedRows, refusedRows } = await stageImport(store, [source("b.csv", csv([right, next]))], act);
    expect({ newRows, changedRows, refusedRows }).toEqual({ newRows: 0, changedRows: 2, refusedRows: 0 });
  });

  it("lets nothing count of a file that turns out not to be text", async () => {
    const store = await newStore();
    const rows = Array.from({ length: 9000 }, (_, i) =>
      line({ unit: `B-${i}`, date: "2025-01-01", meter: 10, cylinder: 1, value: 5 }),
    );
    const bytes = new TextEncoder().encode(`${csv(rows)}\u0007`);
    // No letter of UTF-8 or Windows-1252.
    bytes[bytes.length - 1] = 0x81;
    const good = source("good.csv", csv(history("C-1")));
    const { id, newRows, files } = await stageImport(store, [modelsFile, source("bad.csv", bytes), good], act);
    expect(newRows).toBe(21);
    expect(files.find((file) => file.name === "bad.csv")).toMatchObject({ newRows: 0, sha256: null, refused: true });
    expect(files.map((file) => file.refused)).toEqual([false, true, false]);
    expect((await issuesOf(store, id)).map((issue) => issue.file)).toEqual(["bad.csv"]);
  });

  it("counts every engine model that is refused as a row", async () => {
    const store = await newStore();
    const list = (...engineModels: readonly object[]) => JSON.stringify({ schemaVersion: 1, engineModels });
    const leakDown = { watchPercent: 10, planPercent: 20, limitPercent: 30 };
    const bad = list({ id: "x", cylinders: 0 }, { id: "y", cylinders: 4 }, { id: "z", cylinders: 4, leakDown });
    const other = list({ id: "z", cylinders: 6, leakDown });
    const files = [source("a.json", bad), source("b.json", other), source("c.json", "[]")];
    const staged = await stageImport(store, files, act);
    expect(staged).toMatchObject({ newRows: 1, refusedRows: 3 });
    expect(
      staged.files.map(({ name, rows, newRows, refusedRows, refused }) => [name, rows, newRows, refusedRows, refused]),
    ).toEqual([
      ["a.json", 3, 1, 2, false],
      ["b.json", 1, 0, 1, false],
      ["c.json", 0, 0, 0, true],
    ]);
  });

  it("refuses what lies after today in the fleet's time zone, or after a fixed date that lies ahead", async () => {
    const store = await newStore();
    const days = ["2026-06-30", "2026-07-01", "2026-07-02"];
    const rows = days.map((date) => line({ unit: "B-1", date, meter: 10, cylinder: 1, value: 5 }));
    const files = [modelsFile, source("a.csv", csv(rows))];
    const newRows = async () => (await stageImport(store, files, act)).newRows - 1;
    expect(await newRows()).toBe(1);
    await changeSettings(store, { timeZone: "Pacific/Kiritimati" }, { by: "A", at: now.toISOString() });
    const evening = { ...act, now: new Date("2026-06-30T20:00:00Z") };
    expect((await stageImport(store, files, evening)).newRows - 1).toBe(2);
    await changeSettings(store, { asOf: "2026-07-02" }, { by: "A", at: now.toISOString() });
    expect(await newRows()).toBe(3);
  });

  it("tells files of one name apart, and knows the bytes of each", async () => {
    const store = await newStore();
    const twice = [source("a.csv", csv(history("B-1"))), source("a.csv", csv(history("B-2")))];
    const { files } = await stageImport(store, [...twice, modelsFile], act);
    expect(files.map((file) => [file.name, file.kind, file.newRows])).toEqual([
      ["models.json", "engine-models", 1],
      ["a.csv", "tests-long", 20],
      ["a.csv (2)", "tests-long", 20],
    ]);
    expect(new Set(files.map((file) => file.sha256)).size).toBe(3);
  });
});

describe("a cancel", () => {
  const phases: readonly Phase[] = ["reading", "checking", "comparing"];
  it.each(phases)("while %s leaves nothing behind", async (phase) => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(history("B-1")))]);
    const before = await fleetFacts(store);
    const controller = new AbortController();
    const seen: Phase[] = [];
    const onProgress = (progress: { phase: Phase }) => {
      seen.push(progress.phase);
      if (progress.phase === phase) controller.abort(new Error("asked to stop"));
    };
    const files = [
      source("b.csv", csv(history("B-2"))),
      source("c.csv", "unit,engine_model\nB-3,petrol-4-a\n,\nB-4,x\n"),
    ];
    const staged = stageImport(store, files, act, { signal: controller.signal, onProgress });
    await expect(staged).rejects.toThrow("asked to stop");
    expect(seen.at(-1)).toBe(phase);
    expect(await fleetFacts(store)).toEqual(before);
    expect((await listImports(store)).length).toBe(1);
    const { q, tests, unitFacts, importIssues: issues } = store;
    expect((await q.select().from(tests)).length).toBe(before.tests.length);
    expect(await q.select().from(unitFacts)).toEqual([]);
    expect(await q.select().from(issues)).toEqual([]);
  });

  it("also follows when a file's bytes cannot be had to the end", async () => {
    const store = await newStore();
    const broken: ImportSource = {
      name: "b.csv",
      bytes: null,
      open: async function* () {
        yield new TextEncoder().encode(csv(history("B-2")));
        throw new Error("the line was cut");
      },
    };
    await expect(stageImport(store, [modelsFile, broken], act)).rejects.toThrow("the line was cut");
    expect(await listImports(store)).toEqual([]);
    expect(await store.q.select().from(store.tests)).toEqual([]);
  });
});

import { spawnSync } from "node:child_process";
import { hostname } from "node:os";
import { eq, sql } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { recentActivity } from "@/db/activity.ts";
import { finishStaging } from "@/db/comparison.ts";
import { modelVersions } from "@/db/engine-models.ts";
import { fleetFacts, hasFacts } from "@/db/facts.ts";
import { countFacts, factUnits, knownFleet } from "@/db/fleet-known.ts";
import { commitImport, discardImport, sweepStaged, undoImport } from "@/db/import-state.ts";
import {
  addImportIssues,
  allIssues,
  beginImport,
  describeImportFile,
  importDetail,
  importIssues,
  importsOfSameBytes,
  issuePage,
  listImports,
} from "@/db/imports.ts";
import { stageFacts } from "@/db/staging-facts.ts";
import { stageTests } from "@/db/staging-tests.ts";
import { openStore, type Store } from "@/db/store.ts";
import {
  at,
  by,
  meterReading,
  model,
  reading,
  repair,
  stage,
  take,
  temporaryFile,
  temporaryStore,
  test,
  unit,
} from "./made-up.ts";

const doer = { by, at };
const values = async (store: Store) =>
  (await fleetFacts(store)).tests.flatMap((t) => t.readings.map((r) => [t.unit, r.cylinder, r.value]));

describe("staging", () => {
  it("shows nothing before the commit, also to another process, and all of it after", async () => {
    const file = temporaryFile();
    const store = await temporaryStore(file);
    const other = await temporaryStore(file);
    const { importId } = await stage(store, {
      tests: [test()],
      units: [unit()],
      models: { file: "m.json", models: [model()] },
    });
    for (const seen of [store, other]) {
      expect(await fleetFacts(seen)).toEqual(await fleetFacts(await temporaryStore()));
      expect(await hasFacts(seen)).toBe(false);
    }
    expect((await commitImport(store, importId, { ...doer, takeChanges: true })).ok).toBe(true);
    const facts = await fleetFacts(other);
    expect(facts.tests).toEqual([test()]);
    expect(facts.units).toEqual([unit()]);
    expect(facts.models).toEqual([model()]);
    expect(await hasFacts(other)).toBe(true);
  });

  it("puts a test together whose readings came from several files", async () => {
    const store = await temporaryStore();
    const id = await beginImport(store, { ...doer, files: [{ name: "tests.csv" }] });
    const parts = [
      test({ readings: [reading(2, 1190), reading(1, 1200)] }),
      test({ readings: [reading(3, 1180)], file: "more.csv" }),
    ];
    await stageTests(store, id, parts);
    expect(await finishStaging(store, id)).toMatchObject({ newRows: 3 });
    await commitImport(store, id, { ...doer, takeChanges: true });
    expect((await fleetFacts(store)).tests).toEqual([
      test({ readings: [reading(1, 1200), reading(2, 1190), reading(3, 1180, { file: "more.csv" })] }),
    ]);
  });

  it("throws where rows that intake has to settle tell one thing twice", async () => {
    const store = await temporaryStore();
    const id = await beginImport(store, { ...doer, files: [] });
    await stageTests(store, id, [test()]);
    await expect(stageTests(store, id, [test({ readings: [reading(3, 1180)] })])).rejects.toThrow(/UNIQUE/);
    const twice = test({ unit: "V-2", readings: [reading(1, 1200), reading(1, 1100)] });
    await expect(stageTests(store, id, [twice])).rejects.toThrow(/UNIQUE/);
    await expect(stageFacts(store, id, { repairs: [repair(), repair({ cost: 9 })] })).rejects.toThrow(/UNIQUE/);
    expect(await finishStaging(store, id)).toMatchObject({ newRows: 2 });
  });

  it("takes no rows once the import is committed or given up", async () => {
    const store = await temporaryStore();
    const id = await take(store, { tests: [test()] });
    await expect(stageTests(store, id, [test()])).rejects.toThrow(/committed/);
    const given = await beginImport(store, { ...doer, files: [] });
    await discardImport(store, given, doer);
    await expect(stageFacts(store, given, { units: [unit()] })).rejects.toThrow(/discarded/);
  });
});

describe("comparison", () => {
  it("finds the same file again known, and adds nothing", async () => {
    const store = await temporaryStore();
    const news = {
      tests: [test()],
      units: [unit()],
      repairs: [repair()],
      meterReadings: [meterReading()],
      models: { file: "m.json", models: [model()] },
    };
    await take(store, news);
    const before = [await fleetFacts(store), await countFacts(store)];
    const { importId, counts } = await stage(store, news);
    expect(counts).toMatchObject({ newRows: 0, changedRows: 0, knownRows: 6 });
    await commitImport(store, importId, { ...doer, takeChanges: true });
    expect([await fleetFacts(store), await countFacts(store)]).toEqual(before);
  });

  it("takes a change only where asked to, and keeps the old row", async () => {
    const store = await temporaryStore();
    await take(store, { tests: [test()] });
    const corrected = { tests: [test({ readings: [reading(1, 1150), reading(2, 1190), reading(3, 1180)] })] };
    const { importId, counts } = await stage(store, corrected);
    expect(counts).toMatchObject({ newRows: 1, changedRows: 1, knownRows: 1 });
    await commitImport(store, importId, { ...doer, takeChanges: false });
    expect(await values(store)).toEqual([
      ["V-1", 1, 1200],
      ["V-1", 2, 1190],
      ["V-1", 3, 1180],
    ]);
    await take(store, corrected);
    expect(await values(store)).toEqual([
      ["V-1", 1, 1150],
      ["V-1", 2, 1190],
      ["V-1", 3, 1180],
    ]);
    const kept = await store.q.select().from(store.readings);
    expect(kept.filter((row) => row.cylinder === 1).map((row) => row.value)).toContain(1200);
  });

  it("declines changes of the facts of one line too, and still takes what is new beside them", async () => {
    const store = await temporaryStore();
    await take(store, { units: [unit({ depot: "North" })], repairs: [repair({ cost: 100 })] });
    const corrected = { units: [unit({ depot: "South" }), unit({ unit: "V-2" })], repairs: [repair({ cost: 900 })] };
    await take(store, corrected, { takeChanges: false });
    expect(await fleetFacts(store)).toMatchObject({
      units: [{ unit: "V-1", depot: "North" }, { unit: "V-2" }],
      repairs: [{ cost: 100 }],
    });
    await take(store, corrected);
    expect(await fleetFacts(store)).toMatchObject({ units: [{ depot: "South" }, {}], repairs: [{ cost: 900 }] });
  });

  it("lets a later file without a column leave what an earlier one told", async () => {
    const store = await temporaryStore();
    await take(store, { tests: [test({ warm: true, readings: [reading(1, 1200, { remarks: "cold start" })] })] });
    const { counts } = await stage(store, { tests: [test({ readings: [reading(1, 1200)] })] });
    expect(counts).toMatchObject({ knownRows: 1, changedRows: 0 });
    await take(store, { tests: [test({ meter: 1010, readings: [reading(1, 1200)] })] });
    const [fact] = (await fleetFacts(store)).tests;
    expect(fact).toMatchObject({ meter: 1010, warm: true, readings: [{ remarks: "cold start" }] });
  });

  it("leaves a unit retired that a later list names without a status", async () => {
    const store = await temporaryStore();
    await take(store, { units: [unit({ status: "retired" })] });
    await take(store, { units: [unit({ status: null, depot: "North" })] });
    expect((await fleetFacts(store)).units).toMatchObject([{ status: "retired", depot: "North" }]);
  });

  it("does not carry a first stroke over into another unit", async () => {
    const store = await temporaryStore();
    await take(store, { tests: [test({ readings: [reading(1, 1200, { firstStroke: 500 })] })] });
    await take(store, { tests: [test({ readings: [reading(1, 170, { valueUnit: "psi" })] })] });
    expect((await fleetFacts(store)).tests[0]?.readings).toMatchObject([
      { value: 170, valueUnit: "psi", firstStroke: null },
    ]);
  });

  it("counts a row that changes only what is told of its test as changed", async () => {
    const store = await temporaryStore();
    await take(store, { tests: [test()] });
    const { counts } = await stage(store, { tests: [test({ meter: 1100 })] });
    expect(counts).toMatchObject({ newRows: 0, changedRows: 2, knownRows: 0 });
  });

  it("counts by file, and refused rows by their issues", async () => {
    const store = await temporaryStore();
    const id = await beginImport(store, { ...doer, files: [{ name: "tests.csv", kind: "tests-long" }] });
    await stageTests(store, id, [test(), test({ unit: "V-2", file: "b.csv", readings: [reading(1, 1000)] })]);
    const issue = {
      severity: "refused",
      code: "x",
      file: "b.csv",
      line: 7,
      column: null,
      value: null,
      words: "…",
    } as const;
    await addImportIssues(store, id, [
      issue,
      { ...issue, column: "value" },
      { ...issue, line: 9, severity: "warning" },
    ]);
    await describeImportFile(store, id, { name: "b.csv", kind: "tests-wide", sha256: "ab", bytes: 10, rows: 3 });
    await finishStaging(store, id);
    expect(await importDetail(store, id)).toMatchObject({
      state: "staged",
      newRows: 3,
      refusedRows: 1,
      warnedRows: 1,
      files: [
        { name: "tests.csv", kind: "tests-long", newRows: 2, refusedRows: 0 },
        { name: "b.csv", kind: "tests-wide", rows: 3, newRows: 1, refusedRows: 1, warnedRows: 1 },
      ],
    });
  });

  it("compares again where something else was committed meanwhile", async () => {
    const store = await temporaryStore();
    const first = await stage(store, { tests: [test()] });
    const second = await stage(store, { tests: [test({ readings: [reading(1, 900), reading(2, 1190)] })] });
    await commitImport(store, first.importId, { ...doer, takeChanges: true });
    const outcome = await commitImport(store, second.importId, { ...doer, takeChanges: true });
    expect(outcome).toMatchObject({
      ok: false,
      error: { code: "counts-changed", counts: { newRows: 0, changedRows: 1, knownRows: 1 } },
    });
    expect(await values(store)).toEqual([
      ["V-1", 1, 1200],
      ["V-1", 2, 1190],
    ]);
    expect((await commitImport(store, second.importId, { ...doer, takeChanges: true })).ok).toBe(true);
    expect(await values(store)).toEqual([
      ["V-1", 1, 900],
      ["V-1", 2, 1190],
    ]);
  });

  it("knows what it once called known as new when that was undone meanwhile", async () => {
    const store = await temporaryStore();
    const first = await take(store, { tests: [test()] });
    const second = await stage(store, { tests: [test()] });
    expect(second.counts).toMatchObject({ knownRows: 2 });
    await undoImport(store, first, doer);
    await commitImport(store, second.importId, { ...doer, takeChanges: true });
    await commitImport(store, second.importId, { ...doer, takeChanges: true });
    expect(await values(store)).toEqual([
      ["V-1", 1, 1200],
      ["V-1", 2, 1190],
    ]);
  });
});

describe("undo and discard", () => {
  it("shows the old value again when a correction is undone", async () => {
    const store = await temporaryStore();
    await take(store, { tests: [test()], units: [unit({ depot: "North" })] });
    const before = await fleetFacts(store);
    const id = await take(store, {
      tests: [test({ warm: true, readings: [reading(1, 950)] })],
      units: [unit({ depot: "South" })],
    });
    expect(await fleetFacts(store)).not.toEqual(before);
    expect((await undoImport(store, id, doer)).ok).toBe(true);
    expect(await fleetFacts(store)).toEqual(before);
  });

  it("leaves a later correction standing when what it corrected is undone, in any order", async () => {
    const store = await temporaryStore();
    const [a, b, c] = [
      await take(store, { tests: [test()] }),
      await take(store, { tests: [test({ readings: [reading(1, 1100)] })] }),
      await take(store, { tests: [test({ readings: [reading(1, 1050)] })] }),
    ];
    await undoImport(store, b, doer);
    expect(await values(store)).toEqual([
      ["V-1", 1, 1050],
      ["V-1", 2, 1190],
    ]);
    await undoImport(store, a, doer);
    expect(await values(store)).toEqual([["V-1", 1, 1050]]);
    await undoImport(store, c, doer);
    expect(await values(store)).toEqual([]);
    expect(await factUnits(store)).toEqual([]);
  });

  it("keeps what a later import repeated of an undone one, and all that it added", async () => {
    const store = await temporaryStore();
    const january = { tests: [test({ readings: [reading(1, 1200)] })], units: [unit()], repairs: [repair()] };
    const first = await take(store, january, { takeChanges: false });
    const cumulative = {
      tests: [test({ readings: [reading(1, 1200), reading(2, 1190)] })],
      units: [unit(), unit({ unit: "V-2" })],
      repairs: [repair()],
    };
    await take(store, cumulative, { takeChanges: false });
    await undoImport(store, first, doer);
    expect(await fleetFacts(store)).toEqual({
      ...(await fleetFacts(await temporaryStore())),
      ...cumulative,
    });
    expect(await countFacts(store)).toMatchObject({ units: 2, tests: 1, readings: 2, repairs: 1 });
    expect(await factUnits(store)).toEqual(["V-1", "V-2"]);
  });

  it("takes a declined change for what is known once nothing else tells it", async () => {
    const store = await temporaryStore();
    const first = await take(store, { tests: [test()], units: [unit({ depot: "North" })] });
    const other = { tests: [test({ meter: 1111, readings: [reading(1, 900)] })], units: [unit({ depot: "South" })] };
    await take(store, other, { takeChanges: false });
    expect((await fleetFacts(store)).units).toMatchObject([{ depot: "North" }]);
    await undoImport(store, first, doer);
    expect(await fleetFacts(store)).toMatchObject(other);
    expect((await knownFleet(store, { today: null })).units.get("V-1")).toMatchObject({ meterUnit: "h" });
  });

  it("keeps a test's head where its changes were declined and all else was undone", async () => {
    const store = await temporaryStore();
    const first = await take(store, { tests: [test({ readings: [reading(1, 1200)] })] });
    await take(store, { tests: [test({ meter: 1111, readings: [reading(2, 1190)] })] }, { takeChanges: false });
    expect((await fleetFacts(store)).tests[0]).toMatchObject({
      meter: 1000,
      readings: [{ cylinder: 1 }, { cylinder: 2 }],
    });
    await undoImport(store, first, doer);
    expect((await fleetFacts(store)).tests[0]).toMatchObject({ meter: 1111, readings: [{ cylinder: 2 }] });
  });

  it("undoes only what is committed, discards only what is not, and only once", async () => {
    const store = await temporaryStore();
    const { importId } = await stage(store, { tests: [test()] });
    expect(await undoImport(store, importId, doer)).toMatchObject({
      ok: false,
      error: { code: "wrong-state", state: "staged" },
    });
    await commitImport(store, importId, { ...doer, takeChanges: true });
    expect(await discardImport(store, importId, doer)).toMatchObject({ ok: false, error: { state: "committed" } });
    expect((await undoImport(store, importId, doer)).ok).toBe(true);
    expect(await undoImport(store, importId, doer)).toMatchObject({ ok: false, error: { state: "undone" } });
    expect(await commitImport(store, importId, { ...doer, takeChanges: true })).toMatchObject({ ok: false });
    expect(await undoImport(store, "none", doer)).toMatchObject({ ok: false, error: { code: "unknown-import" } });
  });

  it("records who committed, undid and discarded", async () => {
    const store = await temporaryStore();
    const id = await take(store, { tests: [test()] });
    await undoImport(store, id, { by: "B. Clerk", at });
    const did = (await recentActivity(store, { limit: 9, about: id })).map((row) => [row.by, row.action]);
    expect(did).toEqual([
      ["B. Clerk", "import-undone"],
      [by, "import-committed"],
    ]);
    expect(await importDetail(store, id)).toMatchObject({ state: "undone", committedBy: by, undoneBy: "B. Clerk" });
  });

  it("leaves no row of a discarded import behind, nor lists it", async () => {
    const store = await temporaryStore();
    const many = Array.from({ length: 1200 }, (_, i) => test({ unit: `V-${i}` }));
    const { importId } = await stage(store, { tests: many, units: many.map((t) => unit({ unit: t.unit })) });
    await addImportIssues(store, importId, [
      { severity: "mention", code: "x", file: "f", line: 1, column: null, value: null, words: "…" },
    ]);
    await discardImport(store, importId, doer);
    for (const table of [store.tests, store.readings, store.unitFacts, store.importIssues]) {
      expect(await store.q.select().from(table)).toEqual([]);
    }
    expect(await listImports(store)).toEqual([]);
  });
});

describe("a killed process", () => {
  const begun = "2026-06-30T06:00:00.000Z";
  const before = { ...doer, olderThan: "2026-06-30T05:00:00.000Z" };
  const after = { ...doer, olderThan: "2026-06-30T07:00:00.000Z" };
  const readBy = async (store: Store, id: string, mark: readonly unknown[]) => {
    const reader = JSON.stringify(mark);
    await store.q.update(store.imports).set({ reader }).where(eq(store.imports.id, id));
  };

  it("leaves an import that nobody sees and the next start sweeps away at once", async () => {
    const file = temporaryFile();
    const killed = await openStore(file);
    const id = await beginImport(killed, { by, at: begun, files: [] });
    await stageTests(killed, id, [test()]);
    // Neither closed nor finished: as after a kill, the file is all that the next process finds.
    const store = await temporaryStore(file);
    expect((await fleetFacts(store)).tests).toEqual([]);
    await readBy(store, id, [hostname(), spawnSync(process.execPath, ["--version"]).pid, "ended"]);
    expect(await sweepStaged(store, before)).toEqual([id]);
    expect(await store.q.select().from(store.readings)).toEqual([]);
    await killed.close();
  });

  it("is told from one that runs, from this one of the same number, and from one of another machine", async () => {
    const store = await temporaryStore();
    const begin = () => beginImport(store, { by, at: begun, files: [] });
    const [own, other, sameNumber, elsewhere] = [await begin(), await begin(), await begin(), await begin()];
    await readBy(store, other, [hostname(), process.ppid, "runs"]);
    await readBy(store, sameNumber, [hostname(), process.pid, "an earlier start of the same container"]);
    await readBy(store, elsewhere, ["another-machine", process.pid, "?"]);
    expect(await sweepStaged(store, before)).toEqual([sameNumber]);
    expect(await sweepStaged(store, after)).toEqual([elsewhere]);
    expect((await listImports(store)).map(({ id }) => id).sort()).toEqual([own, other].sort());
  });

  it("leaves no form that waits, for nobody is asked about it; one that is being sent, and files that wait, stay", async () => {
    const store = await temporaryStore();
    const ended = [hostname(), process.pid, "an earlier start of the same container"];
    const staged = async (origin: "file" | "form" | "correction", unit: string) =>
      (await stage(store, { tests: [test({ unit })], origin })).importId;
    const [form, correction, file] = [
      await staged("form", "V-1"),
      await staged("correction", "V-2"),
      await staged("file", "V-3"),
    ];
    for (const id of [form, correction, file]) await readBy(store, id, ended);
    const sending = await staged("form", "V-4");
    expect((await sweepStaged(store, before)).sort()).toEqual([form, correction].sort());
    expect((await listImports(store)).map(({ id }) => id).sort()).toEqual([file, sending].sort());
  });

  it("while deleting is finished off at the next start; what waits for a person is left alone", async () => {
    const store = await temporaryStore();
    const waiting = await stage(store, { tests: [test()] });
    const half = await stage(store, { tests: [test({ unit: "V-9" })] });
    await store.atomically((q) => [
      q.update(store.imports).set({ state: "discarded" }).where(eq(store.imports.id, half.importId)),
    ]);
    expect(await sweepStaged(store, { ...doer, olderThan: "2027-01-01T00:00:00.000Z" })).toEqual([]);
    const left = await store.q.select().from(store.tests);
    expect(left.map((row) => row.importId)).toEqual([waiting.importId]);
  });
});

describe("lists", () => {
  it("gives issues by file and line, in parts, by severity", async () => {
    const store = await temporaryStore();
    const id = await beginImport(store, { ...doer, files: [] });
    const issue = (line: number | null, severity: "refused" | "warning") => ({
      severity,
      code: "c",
      file: "a.csv",
      line,
      column: null,
      value: null,
      words: `line ${line}`,
    });
    await addImportIssues(store, id, [
      issue(30, "refused"),
      issue(4, "warning"),
      issue(null, "warning"),
      issue(5, "refused"),
    ]);
    const all = await importIssues(store, id, { offset: 0, limit: 3 });
    expect([all.total, ...all.issues.map((row) => row.line)]).toEqual([4, null, 4, 5]);
    const refused = await importIssues(store, id, { offset: 1, limit: 10, severity: "refused" });
    expect([refused.total, ...refused.issues.map((row) => row.line)]).toEqual([2, 30]);
  });

  it("gives all issues in that order, part by part, and finds a page far down without sorting", async () => {
    const store = await temporaryStore();
    const id = await beginImport(store, { ...doer, files: [] });
    const issues = Array.from({ length: 5200 }, (_, i) => ({
      severity: i % 3 === 0 ? ("warning" as const) : ("refused" as const),
      code: "c",
      file: i % 2 === 0 ? "b.csv" : "a.csv",
      line: i % 5 === 0 ? null : (i * 7919) % 300,
      column: null,
      value: null,
      words: `${i}`,
    }));
    await addImportIssues(store, id, issues);
    for (const options of [{}, { severity: "refused" as const }]) {
      const { issues: whole, total } = await importIssues(store, id, { offset: 0, limit: 10_000, ...options });
      const parts: (typeof whole)[number][] = [];
      for await (const part of allIssues(store, id, options)) parts.push(...part);
      expect(parts).toEqual(whole);
      expect(parts).toHaveLength(total);
    }
    for (const options of [{}, { severity: "refused" as const }]) {
      const page = issuePage(store, id, { offset: 4000, limit: 50, ...options }).getSQL();
      const plan = await store.q.all<{ detail: string }>(sql`explain query plan ${page}`);
      const steps = plan.map((step) => step.detail).join();
      expect(steps).toMatch(/USING INDEX import_issues_/);
      expect(steps).not.toContain("TEMP B-TREE");
    }
  });

  it("finds earlier imports of the same bytes while they stand", async () => {
    const store = await temporaryStore();
    const id = await beginImport(store, { ...doer, files: [{ name: "a.csv", sha256: "f00" }] });
    await finishStaging(store, id);
    expect(await importsOfSameBytes(store, "f00")).toEqual([]);
    await commitImport(store, id, { ...doer, takeChanges: true });
    expect((await importsOfSameBytes(store, "f00")).map((row) => row.id)).toEqual([id]);
    await undoImport(store, id, doer);
    expect(await importsOfSameBytes(store, "f00")).toEqual([]);
  });

  it("numbers the versions of a model as they are committed; the last one that stands is in force", async () => {
    const store = await temporaryStore();
    const named = (name: string) => ({ models: { file: "m.json", models: [model({ name })] } });
    await take(store, named("first"));
    const second = await take(store, named("second"));
    expect((await modelVersions(store, "petrol-4-a")).map((row) => [row.version, row.model.name])).toEqual([
      [2, "second"],
      [1, "first"],
    ]);
    expect((await knownFleet(store, { today: null })).models.get("petrol-4-a")?.name).toBe("second");
    await undoImport(store, second, doer);
    expect((await fleetFacts(store)).models.map((m) => m.name)).toEqual(["first"]);
  });

  it("knows a unit's model and meter unit from its units file, else from its last test", async () => {
    const store = await temporaryStore();
    await take(store, {
      units: [unit({ unit: "V-1", engineModel: "diesel-6" })],
      tests: [
        test({ date: "2025-01-01", engineModel: "old", unit: "V-2" }),
        test({ engineModel: "new", unit: "V-2" }),
        test(),
      ],
    });
    const { units, today } = await knownFleet(store, { today: "2026-06-30" });
    expect(today).toBe("2026-06-30");
    expect(Object.fromEntries(units)).toEqual({
      "V-1": { engineModel: "diesel-6", meterUnit: "h" },
      "V-2": { engineModel: "new", meterUnit: "h" },
    });
  });
});

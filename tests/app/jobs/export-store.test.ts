import { readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import { exportPieces } from "@/app/_jobs/export-store.ts";
import { readExportedFolder } from "@/app/_jobs/exported-folder.ts";
import { fileSource } from "@/app/_jobs/file-source.ts";
import { rebuild } from "@/app/_jobs/rebuild.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { workshopNow } from "@/app/_jobs/workshop-now.ts";
import { changeDepot, depotSetups } from "@/db/depots.ts";
import { standingModel } from "@/db/engine-models.ts";
import { fleetFacts, hasFacts } from "@/db/facts.ts";
import { allIssues } from "@/db/imports.ts";
import { keptLayouts } from "@/db/layouts.ts";
import { addNote, notesOf, setNoteWithdrawn } from "@/db/notes.ts";
import { addPhoto, photosOf, photoWithBytes, withdrawPhoto } from "@/db/photos.ts";
import { chooseForUnit } from "@/db/plan-choices.ts";
import { changeSettings, readSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { changeWorkshop, workshopTold } from "@/db/workshop.ts";
import { contractCsv } from "@/lib/outtake/contract-csv.ts";
import type { FleetFacts } from "@/lib/schema/facts.ts";
import { workshopSchema } from "@/lib/schema/workshop.ts";
import {
  checkFact,
  depotFact,
  judgementFact,
  meterFact,
  reading,
  repairFact,
  testFact,
  unitFact,
} from "../../lib/sealing/facts.ts";
import { demoStore } from "./demo-store.ts";
import { assessmentsOf, exported, folderOf, takenBack } from "./exported.ts";
import { act, csv, history, modelsFile, newStore, source, take } from "./made-up-files.ts";

type Files = Map<string, string | Uint8Array>;
const told = { by: 'O. "Quote" = A', at: "2026-06-30T08:00:00.000Z" };

/** Bytes as text, which is compared in no time. */
const asTexts = (files: ReadonlyMap<string, string | Uint8Array>) =>
  [...files].map(([name, content]) => [
    name,
    typeof content === "string" ? content : Buffer.from(content).toString("base64"),
  ]);

/** Exported, taken into a new store and rebuilt, as the first one is: the same assessments, and the same files again. */
async function expectSameAgain(store: Store): Promise<Store> {
  const files = await exported(store);
  const other = await takenBack(files);
  await rebuild(store, act);
  await rebuild(other, act);
  const assessments = await assessmentsOf(store);
  expect(JSON.parse(assessments)).not.toEqual([]);
  expect(await assessmentsOf(other)).toBe(assessments);
  expect(asTexts(await exported(other))).toEqual(asTexts(files));
  return other;
}

describe("a store that is written and taken back", () => {
  it("gives the demo fleet with equal assessments, byte for byte, after corrections, undoing and changed settings", async () => {
    const store = await demoStore();
    const before = JSON.parse(await assessmentsOf(store));
    expect(before).toHaveLength(40);
    // Facts that came later stand with those of the demo; those of an import that was undone do not.
    const later = "unit,repair_date,meter,scope,cylinders,remarks\nV-101,2026-08-30,999999,adjustment,all,=1+1\n";
    await take(store, [source("repairs.csv", later)]);
    // What persons made of tests comes along: without it the same tests would be assessed otherwise.
    const { tests } = await fleetFacts(store, { units: ["V-109", "V-110"] });
    const judgements = (["set-aside", "withdrawn"] as const).map((verdict, i) => {
      const { unit, date, test, attempt, instrument } = tests.findLast(
        (one) => one.unit === `V-1${i === 0 ? "09" : "10"}`,
      )!;
      return judgementFact({ unit, date, test, attempt, instrument, verdict });
    });
    await take(store, [source("judged.csv", contractCsv("judgements", { judgements }))]);
    const undone = await take(store, [source("b.csv", csv(history("Z-1")))]);
    expect((await undoImport(store, undone, act)).ok).toBe(true);
    const written = await exported(store);
    expect(written.get("repairs.csv")).toContain(",'=1+1\r\n");
    expect(written.get("tests.csv")).not.toContain("Z-1");
    expect(written.get("judgements.csv")).toMatch(/V-109,.*set-aside[\s\S]*V-110,.*withdrawn/);
    await changeSettings(store, { leadTimeMonths: 18, planProbability: 0.4, testIntervalDays: 300 }, told);
    // Prices, and a repair that is pinned to a week.
    const { id: after, workshop } = await workshopTold(store);
    await changeWorkshop(
      store,
      { ...workshop, labourRate: 61.5, spares: { "petrol-4-a": { count: 1, turnaroundWeeks: 9 } } },
      { ...told, after },
    );
    const pin = { scope: "top-end", date: "2026-10-05" } as const;
    expect(await chooseForUnit(store, { unit: "V-109", chosen: [pin], seen: [], known: [] }, told)).toBe(true);
    const other = await expectSameAgain(store);
    expect((await workshopNow(other)).workshop).toEqual((await workshopNow(store)).workshop);
    expect((await workshopNow(other)).workshop).toMatchObject({ labourRate: 61.5, pins: [{ unit: "V-109", ...pin }] });
    // As the commands that plan from files read it.
    const file = JSON.parse(String((await exported(store)).get("workshop.json")));
    expect(workshopSchema.parse(file)).toMatchObject({ labourRate: 61.5, depots: { Highcol: { builders: 1 } } });
    expect(await readSettings(other)).toEqual(await readSettings(store));
    const setups = async (s: Store) => [...(await depotSetups(s))].map(([depot, { setup }]) => [depot, setup]);
    expect(await setups(other)).toEqual(await setups(store));
    expect((await setups(other)).length).toBeGreaterThan(0);
  }, 240_000);

  it("keeps notes, calendars and layouts, whatever they are called", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(history("__proto__")))]);
    const setup = {
      bays: 2,
      technicians: null,
      productiveHoursPerDay: 6.5,
      daysPerWeek: 6,
      builders: null,
      labourRate: 61.5,
      retired: true,
      periods: [{ kind: "peak", repeat: "yearly", firstWeek: 46, lastWeek: 8, remarks: '=1+1, "harvest"' } as const],
    };
    await changeDepot(store, "__proto__", setup, { ...told, after: null });
    await addNote(store, "__proto__", { text: "=HYPERLINK(1)\n<b>two</b>", date: "2026-01-02" }, told);
    const withdrawn = await addNote(store, "constructor", { text: "of no unit now", date: "2026-01-03" }, told);
    await setNoteWithdrawn(store, { id: withdrawn, withdrawn: true }, { ...told, by: "L. Second" });
    for (const [id, name, layout, gone] of [
      [9001, "Yard", { old: true }, false],
      [9002, "Yard", { columns: ["=a"] }, false],
      [9003, "Gone", {}, true],
    ] as const) {
      await store.tx(async (q) => {
        await q.insert(store.layouts).values({ id, name, header: "a|b", layout, ...told, withdrawn: gone });
      });
    }
    const other = await expectSameAgain(store);
    expect((await depotSetups(other)).get("__proto__")?.setup).toEqual(setup);
    const bare = async (s: Store, unit: string) => (await notesOf(s, unit)).map(({ id: _id, ...note }) => note);
    for (const unit of ["__proto__", "constructor"]) {
      expect(await bare(other, unit)).toEqual(await bare(store, unit));
      expect(await bare(other, unit)).toHaveLength(1);
    }
    expect(await keptLayouts(other)).toEqual([
      {
        ...{ id: expect.any(Number), name: "Yard", header: "a|b", layout: { columns: ["=a"] }, ...told },
        ...{ renamedFrom: null, withdrawn: false, withdrawnBy: null, withdrawnAt: null },
      },
    ]);
  });
});

/** Images as far as their first bytes go, of a size that takes several parts. */
const jpeg = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), Buffer.alloc(300_000, 7)]);
const png = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);
const repaired =
  "unit,repair_date,meter,scope,cylinders\nV-1,2025-06-01,3100,top-end,2+3\nV-1,2025-08-01,3200,complete,\n";
const topEnd = { unit: "V-1", date: "2025-06-01", scope: "top-end", cylinders: [2, 3] } as const;
const complete = { unit: "V-1", date: "2025-08-01", scope: "complete", cylinders: "all" } as const;

async function storeWithPhotos(): Promise<Store> {
  const store = await newStore();
  await take(store, [modelsFile, source("a.csv", csv(history("V-1"))), source("repairs.csv", repaired)]);
  for (const [repair, name, type, bytes] of [
    [complete, "../../../etc/passwd", "image/jpeg", jpeg],
    [topEnd, "=1+1 <b>.png", "image/png", png],
    [topEnd, "the same.png", "image/png", png],
  ] as const) {
    expect(await addPhoto(store, repair, { name, type, bytes }, told)).toEqual(expect.any(Number));
  }
  return store;
}

describe("photos of repairs", () => {
  const shown = async (store: Store) => {
    const photos = await photosOf(store, ["V-1"]);
    return Promise.all(
      photos.map(async ({ id, unit, date, scope, cylinders, name, type, size, by, at }) => ({
        ...{ unit, date, scope, cylinders, name, type, size, by, at },
        bytes: (await photoWithBytes(store, id))?.bytes.toString("base64"),
      })),
    );
  };

  it("come back byte for byte with who, when and their names; their files are named by what is in them", async () => {
    const store = await storeWithPhotos();
    const gone = await addPhoto(store, topEnd, { name: "gone.png", type: "image/png", bytes: png }, told);
    await withdrawPhoto(store, Number(gone), told);
    const files = await exported(store);
    const names = [...files.keys()].filter((name) => name.startsWith("photos/"));
    expect(names).toHaveLength(2);
    for (const name of names) expect(name).toMatch(/^photos\/[0-9a-f]{64}\.(jpg|png)$/);
    const other = await expectSameAgain(store);
    expect(await shown(other)).toEqual(await shown(store));
    expect((await shown(other)).map(({ name }) => name)).toEqual([
      "../../../etc/passwd",
      "=1+1 <b>.png",
      "the same.png",
    ]);
  });

  it("are no part of what is written once their repair is undone", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(history("V-1")))]);
    const repairs = await take(store, [source("repairs.csv", repaired)]);
    await addPhoto(store, topEnd, { name: "seat.png", type: "image/png", bytes: png }, told);
    expect((await undoImport(store, repairs, act)).ok).toBe(true);
    expect([...(await exported(store)).keys()].filter((name) => name.startsWith("photos"))).toEqual([]);
  });

  it("whose repair is refused, or has enough of them, are left out and told, and the rest is taken", async () => {
    const files = new Map(await exported(await storeWithPhotos()));
    files.set("repairs.csv", String(files.get("repairs.csv")).replace(",complete,", ",compleat,"));
    const list = JSON.parse(String(files.get("photos.json"))) as { photos: object[] };
    const [first, second] = list.photos;
    files.set("photos.json", JSON.stringify({ schemaVersion: 1, photos: [first, ...Array(7).fill(second)] }));
    const { files: paths, along } = await readExportedFolder(folderOf(files));
    const store = await newStore();
    const { id } = await stageImport(store, await Promise.all(paths.map(fileSource)), act);
    const outcome = await commitImport(store, id, { ...act, takeChanges: false, along });
    const left = outcome.ok ? outcome.value.photosLeft : [];
    expect(left).toEqual([
      expect.stringMatching(
        /^the photo .*passwd of V-1, complete overhaul of 1 Aug 2025, was not kept: its repair is not/,
      ),
      expect.stringMatching(/^the photo =1\+1 .* was not kept: a repair may have up to 6 photos$/),
    ]);
    expect(await shown(store)).toHaveLength(6);
    const issues = [];
    for await (const some of allIssues(store, id, { severity: "warning" }))
      issues.push(...some.map((one) => one.words));
    expect(issues).toEqual(expect.arrayContaining([...left]));
  });

  it.each([
    ["is missing", (files: Files, file: string) => files.delete(file), "which is not in the folder"],
    ["is no image", (files: Files, file: string) => files.set(file, "<svg/>"), "which is no JPEG, PNG or WebP image"],
    [
      "is another image",
      (files: Files, file: string) => files.set(file, Buffer.concat([png, Buffer.from([9])])),
      "whose bytes are not those that were written",
    ],
    [
      "is too large",
      (files: Files, file: string) => files.set(file, Buffer.concat([png, Buffer.alloc(10_000_000)])),
      "which is larger than 10 MB",
    ],
  ])("are not taken, nor anything else, where one %s", async (_what, spoil, words) => {
    const files = new Map(await exported(await storeWithPhotos()));
    const file = [...files.keys()].find((name) => name.endsWith(".png")) ?? "";
    spoil(files, file);
    await expect(readExportedFolder(folderOf(files))).rejects.toThrow(`photos.json names ${file}, ${words}.`);
  });

  it("that another file was put in place of meanwhile take the whole import back", async () => {
    const folder = folderOf(await exported(await storeWithPhotos()));
    const { files, along } = await readExportedFolder(folder);
    const [name = ""] = readdirSync(path.join(folder, "photos"));
    writeFileSync(path.join(folder, "photos", name), "<svg/>");
    const store = await newStore();
    const { id } = await stageImport(store, await Promise.all(files.map(fileSource)), act);
    await expect(commitImport(store, id, { ...act, takeChanges: false, along })).rejects.toThrow("Nothing was taken");
    expect(await hasFacts(store)).toBe(false);
    expect(await photosOf(store, ["V-1"])).toEqual([]);
  });
});

/** Names and remarks as nobody hopes for them, but that intake takes. */
const hostileText = fc
  .oneof(
    fc.constantFrom(
      "=1+1",
      "'=1+1",
      "+A1",
      "-2",
      "'-2",
      "@x",
      '"',
      '""',
      "a,b",
      "a;=b",
      "a\nb",
      "a\r\nb",
      "<script>x</script>",
      "__proto__",
      "constructor",
      "toString",
      "../..",
      "%00",
      "N/A?",
      "Ü",
      "１２",
      "=cmd|' /C calc'!A0",
      "''",
      "null",
    ),
    fc.string({ minLength: 1, maxLength: 6 }),
  )
  .map((text) => text.trim())
  .filter(
    (text) => text !== "" && !/[^\P{Cc}\t\r\n]/u.test(text) && !/^(n\/?a|n\.a\.?|[-–—]+|\?+|unknown)$/i.test(text),
  );
const hostileName = hostileText.filter((text) => !/\p{Cc}/u.test(text) && text !== "." && text !== "..");
const maybe = <T>(some: fc.Arbitrary<T>) => fc.option(some, { nil: null, freq: 2 });

/** A small fleet whose meters run forwards, so that intake has nothing to refuse. */
const madeUpFleet = fc
  .record({
    units: fc.uniqueArray(hostileName, { minLength: 1, maxLength: 3 }),
    depot: hostileName,
    texts: fc.infiniteStream(maybe(hostileText)),
    names: fc.infiniteStream(maybe(hostileName)),
    values: fc.infiniteStream(fc.integer({ min: 1, max: 28 })),
    flags: fc.infiniteStream(fc.constantFrom(null, true, false)),
    tests: fc.integer({ min: 1, max: 5 }),
  })
  .map(({ units, depot, texts, names, values, flags, tests }) => {
    const next = <T>(stream: Iterator<T>): T => stream.next().value as T;
    const facts: Partial<FleetFacts> = {
      depots: [depotFact(depot, next(values) * 10)],
      units: units.map((unit) => unitFact({ unit, depot, class: next(names), status: null })),
      tests: units.flatMap((unit) =>
        Array.from({ length: tests }, (_, t) =>
          testFact({
            unit,
            date: `202${t}-03-01`,
            meter: 1000 + 400 * t,
            instrument: next(names),
            testedBy: next(texts),
            warm: next(flags),
            readings: [1, 2, 3, 4].map((cylinder) =>
              reading({
                cylinder,
                value: next(values) + t,
                heardAt: cylinder === 2 ? ["exhaust"] : [],
                remarks: next(texts),
              }),
            ),
          }),
        ),
      ),
      repairs: units.map((unit) =>
        repairFact({ unit, date: "2025-06-01", meter: 3100, found: ["exhaust-valve"], remarks: next(texts) }),
      ),
      meterReadings: units.map((unit) => meterFact({ unit, date: "2025-09-01", meter: 3300 + next(values) / 7 })),
      checks: units.map((unit) => checkFact({ unit, date: "2025-07-01", meter: null, remarks: next(texts) })),
    };
    return facts;
  });

const kinds = ["depots", "units", "tests-long", "repairs", "meters", "checks"] as const;
const filesOf = (facts: Partial<FleetFacts>) => kinds.map((kind) => source(`${kind}.csv`, contractCsv(kind, facts)));

it("comes back the same from fleets of any names and remarks, told in several imports, some undone", async () => {
  await fc.assert(
    fc.asyncProperty(madeUpFleet, madeUpFleet, fc.boolean(), fc.boolean(), async (first, second, takeChanges, undo) => {
      const store = await newStore();
      await take(store, [modelsFile, ...filesOf(first)]);
      const later = await take(store, filesOf(second), { takeChanges });
      if (undo) expect((await undoImport(store, later, act)).ok).toBe(true);
      await expectSameAgain(store);
    }),
    { numRuns: 12 },
  );
}, 240_000);

it("keeps what a model says of its causes: likelihoods and shares of its own, with their reasons", async () => {
  const store = await newStore();
  const own = {
    evidence: { "heard-exhaust": { likelihoods: { "head-gasket": 0.4 }, reason: "siamesed port" } },
    causeShares: { shares: { "head-gasket": 0.3 }, reason: "long head studs" },
  };
  const limits = { watchPercent: 10, planPercent: 20, limitPercent: 30 };
  const models = { schemaVersion: 1, engineModels: [{ id: "petrol-4-a", cylinders: 4, leakDown: limits, ...own }] };
  await take(store, [source("models.json", JSON.stringify(models)), source("a.csv", csv(history("B-1")))]);
  const other = await expectSameAgain(store);
  expect(await standingModel(other, "petrol-4-a")).toMatchObject(own);
});

describe("what cannot be written or taken back", () => {
  it("is a store without facts", async () => {
    await expect(exportPieces(await newStore()).next()).rejects.toThrow("The database holds no facts");
  });

  it("is one that was changed while it was written", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(history("B-1")))]);
    const pieces = exportPieces(store);
    await pieces.next();
    await addNote(store, "B-1", { text: "meanwhile", date: "2026-01-02" }, told);
    await expect(async () => {
      for await (const _piece of pieces);
    }).rejects.toThrow("The database was changed while it was written");
  });

  it.each([
    ["settings.json", "{", "settings.json is not what an export writes: it is not JSON."],
    [
      "settings.json",
      '{"schemaVersion":2,"settings":{}}',
      "settings.json is not what an export writes: schemaVersion:",
    ],
    [
      "notes.json",
      '{"schemaVersion":1,"notes":[{"unit":""}]}',
      "notes.json is not what an export writes: notes.0.unit:",
    ],
    [
      "photos.json",
      `{"schemaVersion":1,"photos":[{"file":"photos/../../../etc/passwd","unit":"V-1"}]}`,
      "photos.json is not what an export writes: photos.0.file: must name a file as an export does",
    ],
  ])("is a folder whose %s is another (%s)", async (name, text, words) => {
    await expect(readExportedFolder(folderOf(new Map([[name, text]])))).rejects.toThrow(words);
  });
});

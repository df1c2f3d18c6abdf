import { describe, expect, it } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import type { ImportSource } from "@/app/_jobs/import-source.ts";
import { reassess } from "@/app/_jobs/reassess.ts";
import { reassessDay } from "@/app/_jobs/reassess-day.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { toldChange } from "@/app/_ui/changes/told-change.ts";
import { changedUnits, unitIssues } from "@/db/changes.ts";
import { changeSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { changeFrame } from "@/lib/changes/compare.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";
import { csv, history, line, modelsFile, newStore, source } from "../jobs/made-up-files.ts";

/** What the page of changes says after the work of several days, each at eight in the morning. */

const day = (of: number) => new Date(Date.UTC(2026, 5, of, 8));
const act = (of: number) => ({ by: "A. Fitter", now: day(of) });

async function take(store: Store, files: readonly ImportSource[], on: number): Promise<string> {
  const { id } = await stageImport(store, files, act(on));
  const outcome = await commitImport(store, id, { ...act(on), takeChanges: true });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.error));
  return id;
}

/** Each unit that changed since the evening of a day, with its direction and why. */
async function changes(store: Store, since: number, asOf: number) {
  const frame = changeFrame(settingsSchema.parse({}), `2026-06-${String(asOf).padStart(2, "0")}`);
  const asked = { ...frame, since: new Date(day(since).getTime() + 1).toISOString() };
  const all = { kind: null, direction: null, depot: null, page: 1, pageSize: 100 };
  const { units } = await changedUnits(store, asked, all);
  return units
    .map((unit) => toldChange(unit, frame))
    .map(({ unit, change, why }) => [unit, change.fleet ?? change.direction, why]);
}

const fleetFiles = (units: readonly string[]) =>
  source("fleet.csv", csv(units.flatMap((unit) => history(unit, { from: 4, rate: 0.2 }))));

/** Two tests of a unit after its history, whose second cylinder leaks that much. */
const worse = (unit: string, value: number) =>
  source(
    "worse.csv",
    csv(
      ["2026-05-20", "2026-05-28"].flatMap((date, i) =>
        [1, 2, 3, 4].map((cylinder) =>
          line({ unit, date, meter: 2818 + 17 * i, cylinder, value: cylinder === 2 ? value : 5 }),
        ),
      ),
    ),
  );

describe("after two imports and an undo", () => {
  it("the units that moved are told with the tests that moved them, and not once these are taken back", async () => {
    const store = await newStore();
    await take(store, [modelsFile, fleetFiles(["B-1", "B-2", "B-3", "B-4", "B-5"])], 1);
    const second = await take(store, [worse("B-2", 34), source("new.csv", csv(history("B-9", { tests: 1 })))], 2);
    expect(await changes(store, 1, 2)).toEqual([
      ["B-2", "worse", ["New leak-down tests on 20 May 2026 and 28 May 2026"]],
      ["B-9", "new", ["Came with an import"]],
    ]);
    const outcome = await undoImport(store, second, act(3));
    expect(outcome.ok).toBe(true);
    expect(await changes(store, 1, 3)).toEqual([]);
    expect(await changes(store, 2, 3)).toEqual([
      ["B-2", "better", ["Leak-down tests on 20 May 2026 and 28 May 2026 taken back"]],
      ["B-9", "left", ["An import was undone, and nothing else is known of it"]],
    ]);
    expect((await unitIssues(store, "B-2", 9)).map(({ because, importId }) => [because, importId === second])).toEqual([
      ["undo", true],
      ["import", true],
      ["import", false],
    ]);
  });
});

describe("after a changed limit", () => {
  it("the units that it moved are told with the limits, then and now", async () => {
    const store = await newStore();
    await take(store, [modelsFile, fleetFiles(["B-1", "B-2"])], 1);
    const { engineModels } = JSON.parse(await text(modelsFile)) as { engineModels: [Record<string, object>] };
    const leakDown = { watchPercent: 2, planPercent: 3, limitPercent: 4 };
    const stricter = { ...engineModels[0], leakDown };
    await take(store, [source("models.json", JSON.stringify({ schemaVersion: 1, engineModels: [stricter] }))], 2);
    const told = await changes(store, 1, 2);
    expect(told.map(([unit, direction]) => [unit, direction])).toEqual([
      ["B-1", "worse"],
      ["B-2", "worse"],
    ]);
    for (const [, , why] of told) {
      expect(why?.[0]).toBe("Leakage limit from 30 to 4 %, plan level from 20 to 3 % and watch level from 10 to 2 %");
    }
  });

  it("a changed lead time is told of as well", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(history("B-1", { from: 8, rate: 1 })))], 1);
    await changeSettings(store, { leadTimeMonths: 96 }, { by: "A", at: day(2).toISOString() });
    await reassess(store, { units: "all", because: "settings", pools: "stay" }, act(2));
    const [issue, before] = await unitIssues(store, "B-1", 2);
    expect([before?.because, issue?.because]).toEqual(["import", "settings"]);
    expect(issue?.basis?.settings?.leadTimeMonths).toBe(96);
    const told = await changes(store, 1, 2);
    expect(told).toEqual([["B-1", "worse", ["Planning lead time from 12 to 96 months"]]]);
  });
});

describe("after a changed pool", () => {
  it("a unit without news of its own is told with that of its sister engines", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("few.csv", csv(history("B-1", { tests: 3, from: 6, rate: 0.5 })))], 1);
    const sisters = Array.from({ length: 12 }, (_, i) => history(`S-${i}`, { tests: 6, from: 6, rate: 5 }));
    await take(store, [source("sisters.csv", csv(sisters.flat()))], 2);
    const own = (await changes(store, 1, 2)).find(([unit]) => unit === "B-1");
    expect(own).toEqual(["B-1", "worse", ["What its sister engines show, reckoned anew"]]);
  });
});

describe("as days go by", () => {
  it("a forecast that stays is not issued again, and one that moves is", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(history("B-1", { from: 10, rate: 2.4 })))], 1);
    await reassessDay(store, act(2));
    expect(await unitIssues(store, "B-1", 9)).toHaveLength(1);
    const later = new Date(Date.UTC(2028, 5, 1, 8));
    await reassessDay(store, { by: "A. Fitter", now: later });
    const issues = await unitIssues(store, "B-1", 9);
    expect(issues.map(({ because }) => because)).toEqual(["day", "import"]);
    const frame = changeFrame(settingsSchema.parse({}), "2028-06-01");
    const all = { kind: null, direction: null, depot: null, page: 1, pageSize: 9 };
    const { units } = await changedUnits(store, { ...frame, since: day(3).toISOString() }, all);
    expect(units.map((unit) => toldChange(unit, frame).why)).toEqual([["731 days went by"]]);
  });
});

async function text(file: ImportSource): Promise<string> {
  let all = "";
  for await (const bytes of file.open()) all += typeof bytes === "string" ? bytes : new TextDecoder().decode(bytes);
  return all;
}

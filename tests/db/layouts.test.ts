import { expect, it } from "vitest";
import { recentActivity } from "@/db/activity.ts";
import { finishStaging } from "@/db/comparison.ts";
import { commitImport } from "@/db/import-state.ts";
import { beginImport, describeImportFile } from "@/db/imports.ts";
import {
  allLayouts,
  changeLayout,
  keptLayout,
  keptLayouts,
  layoutNames,
  layoutsOfHeaders,
  layoutUses,
  layoutVersions,
  saveLayout,
  withdrawLayout,
} from "@/db/layouts.ts";
import { factsVersion } from "@/db/meta.ts";
import { at, by, temporaryStore } from "./made-up.ts";

const later = "2026-07-01T08:00:00.000Z";
const east = { name: "East", header: "unit | date", layout: { columns: 1 } };

it("the newest version of a name holds, and the older ones stay", async () => {
  const store = await temporaryStore();
  await saveLayout(store, east, { by, at });
  await saveLayout(store, { ...east, layout: { columns: 2 } }, { by: "B. Clerk", at: later });
  await saveLayout(store, { ...east, name: "Bay 2" }, { by, at });
  expect(await keptLayout(store, "East")).toMatchObject({ layout: { columns: 2 }, by: "B. Clerk", at: later });
  expect((await keptLayouts(store)).map(({ name }) => name)).toEqual(["Bay 2", "East"]);
  expect((await layoutVersions(store, "East")).map(({ layout }) => layout)).toEqual([{ columns: 2 }, { columns: 1 }]);
  expect(await keptLayout(store, "West")).toBeNull();
});

it("is found by the header of its newest version alone", async () => {
  const store = await temporaryStore();
  await saveLayout(store, east, { by, at });
  await saveLayout(store, { ...east, name: "Bay 2" }, { by, at });
  const named = async (...headers: string[]) => (await layoutsOfHeaders(store, headers)).map(({ name }) => name);
  expect(await named("unit | date", "other")).toEqual(["Bay 2", "East"]);
  await saveLayout(store, { ...east, header: "unit | day" }, { by, at });
  expect(await named("unit | date")).toEqual(["Bay 2"]);
  expect(await named("unit | day")).toEqual(["East"]);
  expect(await named()).toEqual([]);
});

it("that was withdrawn is not offered, with none of its versions, until it is saved again", async () => {
  const store = await temporaryStore();
  await saveLayout(store, east, { by, at });
  await saveLayout(store, east, { by, at });
  expect(await withdrawLayout(store, "East", { by: "B. Clerk", at: later })).toBe(true);
  expect(await withdrawLayout(store, "East", { by, at: later })).toBe(false);
  expect(await withdrawLayout(store, "West", { by, at: later })).toBe(false);
  expect([
    await keptLayout(store, "East"),
    await keptLayouts(store),
    await layoutsOfHeaders(store, [east.header]),
  ]).toEqual([null, [], []]);
  expect(await layoutVersions(store, "East")).toHaveLength(2);
  await saveLayout(store, { ...east, layout: { columns: 3 } }, { by, at: later });
  expect(await keptLayout(store, "East")).toMatchObject({ layout: { columns: 3 } });
  const told = await recentActivity(store, { limit: 9 });
  expect(told.map(({ action, by: who }) => [action, who])).toEqual([
    ["layout-saved", by],
    ["layout-withdrawn", "B. Clerk"],
    ["layout-saved", by],
    ["layout-saved", by],
  ]);
});

it("is changed only as it was seen, and keeps its versions under another name", async () => {
  const store = await temporaryStore();
  const first = await saveLayout(store, east, { by, at });
  await saveLayout(store, { ...east, name: "West" }, { by, at });
  const renamed = { ...east, name: "East shed", layout: { columns: 2 } };
  const act = { was: "East", after: first, by: "B. Clerk", at: later };
  expect(await changeLayout(store, { ...renamed, name: "West" }, act)).toEqual({ code: "name-taken" });
  expect(await changeLayout(store, renamed, { ...act, after: first + 100 })).toEqual({ code: "meanwhile", by });
  expect(await changeLayout(store, renamed, act)).toBeNull();
  expect(await layoutVersions(store, "East")).toEqual([]);
  expect(await layoutVersions(store, "East shed")).toMatchObject([
    { layout: { columns: 2 }, by: "B. Clerk", renamedFrom: "East" },
    { layout: { columns: 1 }, by, renamedFrom: null },
  ]);
  expect(await changeLayout(store, renamed, { ...act, was: "East shed", after: first })).toMatchObject({
    code: "meanwhile",
  });
  expect(await changeLayout(store, { ...east, name: "West" }, { ...act, was: "West", after: null })).toEqual({
    code: "name-taken",
  });
  expect(await layoutNames(store)).toEqual(["East shed", "West"]);
});

it("is listed with its versions, also once it was withdrawn, by whom and when", async () => {
  const store = await temporaryStore();
  await saveLayout(store, east, { by, at });
  await saveLayout(store, east, { by, at });
  await withdrawLayout(store, "East", { by: "B. Clerk", at: later });
  expect(await allLayouts(store)).toMatchObject([
    { name: "East", versions: 2, withdrawn: true, withdrawnBy: "B. Clerk", withdrawnAt: later },
  ]);
  await saveLayout(store, east, { by, at: later });
  expect(await allLayouts(store)).toMatchObject([{ versions: 3, withdrawn: false, withdrawnBy: null }]);
});

it("counts the imports that stand and were read by it, those before it was renamed among them", async () => {
  const store = await temporaryStore();
  const at1 = "2026-06-01T08:00:00.000Z";
  const at3 = "2026-08-01T08:00:00.000Z";
  const first = await saveLayout(store, east, { by, at: at1 });
  const importAt = async (name: string, when: string, layout: unknown) => {
    const files = [{ name: "a.csv", bytes: 1 }];
    const importId = await beginImport(store, { by: name, at: when, files });
    await describeImportFile(store, importId, { name: "a.csv", layout });
    await finishStaging(store, importId, { version: await factsVersion(store, store.q) });
    return importId;
  };
  const committed = async (importId: string) => {
    expect((await commitImport(store, importId, { by, at, takeChanges: false })).ok).toBe(true);
    return importId;
  };
  const before = await committed(await importAt("A. Fitter", at, { name: "East", layout: {} }));
  await importAt("Waits", at, { name: "East", layout: {} });
  await committed(await importAt("Not kept", at, { name: null, layout: {} }));
  const seen = { was: "East", after: first, by, at: later };
  expect(await changeLayout(store, { ...east, name: "West" }, seen)).toBeNull();
  const after = await committed(await importAt("B. Clerk", at3, { name: "West", layout: {} }));
  const uses = await layoutUses(store);
  expect([...uses.keys()]).toEqual(["West"]);
  expect(uses.get("West")?.map(({ importId }) => importId)).toEqual([after, before]);
});

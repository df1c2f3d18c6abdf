import { expect, it } from "vitest";
import { recentActivity } from "@/db/activity.ts";
import { keptLayout, keptLayouts, layoutsOfHeaders, layoutVersions, saveLayout, withdrawLayout } from "@/db/layouts.ts";
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

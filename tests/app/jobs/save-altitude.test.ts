import { expect, it } from "vitest";
import { previewBands } from "@/app/_jobs/preview-bands.ts";
import { altitudeToldSince, altitudeVersion, saveAltitude } from "@/app/_jobs/save-altitude.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { altitudeHistory, depotOverviews } from "@/db/depot-overview.ts";
import { demoStore } from "./demo-store.ts";
import { act, everything } from "./made-up-files.ts";

const bytes = (value: unknown) => JSON.stringify(value);

it("an altitude is kept as an import with its units assessed as was foreseen, and its undo brings all back", async () => {
  const store = await demoStore();
  const before = await everything(store);
  const known = async () => (await depotOverviews(store)).find(({ depot }) => depot === "Highcol")?.altitudeM;
  expect(await known()).toBe(1850);
  const wish = { depot: "Highcol", altitudeM: 0 };
  const { changes, units } = await previewBands(store, { depots: [wish] }, act);
  expect(changes.length).toBeGreaterThan(0);
  expect(units).toBeLessThan(40);
  expect(bytes(await everything(store))).toBe(bytes(before));

  const seen = altitudeVersion(await altitudeHistory(store, "Highcol"));
  await saveAltitude(store, { ...wish, seen }, act);
  expect(await known()).toBe(0);
  const bands = new Map((await everything(store)).reports.map((r) => [r?.assessment.unit, r?.assessment.band]));
  for (const { unit, after } of changes) expect(bands.get(unit), unit).toBe(after.band);
  const [told, first] = await altitudeHistory(store, "Highcol");
  expect([told?.altitudeM, told?.by, told?.state, first?.altitudeM]).toEqual([0, act.by, "committed", 1850]);

  expect(await altitudeToldSince(store, "Highcol", seen)).toBe(act.by);
  await expect(saveAltitude(store, { depot: "Highcol", altitudeM: 900, seen }, act)).rejects.toThrow(
    `${act.by} told the altitude of Highcol meanwhile`,
  );
  expect(await known()).toBe(0);

  const saved = altitudeVersion(await altitudeHistory(store, "Highcol"));
  expect(await altitudeToldSince(store, "Highcol", saved)).toBeNull();
  await undoImport(store, told?.importId ?? "", { ...act, by: "B. Clerk" });
  expect(await altitudeToldSince(store, "Highcol", saved)).toBe("B. Clerk");
  expect(await known()).toBe(1850);
  expect((await altitudeHistory(store, "Highcol"))[0]?.state).toBe("undone");
  expect(bytes((await everything(store)).reports)).toBe(bytes(before.reports));
});

it("of two who saw the same and save at once one is kept, and the other is told of it", async () => {
  const store = await demoStore();
  const seen = altitudeVersion(await altitudeHistory(store, "Highcol"));
  const both = await Promise.allSettled(
    [800, 700].map((altitudeM) => saveAltitude(store, { depot: "Highcol", altitudeM, seen }, act)),
  );
  expect(both.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected"]);
  const reasons = both.flatMap((one) => (one.status === "rejected" ? [String(one.reason)] : []));
  expect(reasons.join()).toContain(`${act.by} told the altitude of Highcol meanwhile`);
  expect(await altitudeHistory(store, "Highcol")).toHaveLength(2);
});

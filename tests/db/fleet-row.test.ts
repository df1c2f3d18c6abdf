import { expect, it } from "vitest";
import { keepReports } from "@/db/assessments.ts";
import { fleetPage } from "@/db/fleet.ts";
import { fleetCounts } from "@/db/fleet-counts.ts";
import { query } from "./fleet-query.ts";
import { at, temporaryStore } from "./made-up.ts";
import { projected, report } from "./made-up-report.ts";

it("keeps a planned disposal with the windows that it comes before, and with no other", async () => {
  const store = await temporaryStore();
  const windows = { topEnd: projected("2027-01-01", "2027-09-01"), bottomEnd: projected("2026-09-01", "2026-12-01") };
  const sold = report("V-1", {
    assessment: { repairs: windows, soldBefore: { date: "2027-03-31", topEnd: true, bottomEnd: false } },
  });
  await keepReports(store, [sold, report("V-2", { assessment: { repairs: windows } })], {
    because: "import",
    at,
    version: 1,
  });
  const { rows } = await fleetPage(store, query());
  expect(rows.map((row) => [row.topEnd.soldOn, row.bottomEnd.soldOn])).toEqual([
    ["2027-03-31", undefined],
    [undefined, undefined],
  ]);
});

it("counts no repair as due that is likely only after the unit is sold", async () => {
  const store = await temporaryStore();
  const windows = { topEnd: projected("2026-12-01", "2027-03-01"), bottomEnd: projected("2028-01-01", "2029-01-01") };
  const plan = (unit: string, topEnd: boolean) =>
    report(unit, {
      assessment: { band: "plan", repairs: windows, soldBefore: { date: "2027-01-15", topEnd, bottomEnd: true } },
    });
  await keepReports(store, [plan("V-1", true), plan("V-2", false)], { because: "import", at, version: 1 });
  const counts = await fleetCounts(store, { part: query(), soonUntil: "2027-06-30" });
  expect([counts.byBand.plan, counts.planSoon]).toEqual([2, 1]);
  const { rows } = await fleetPage(store, query({ sort: "due" }));
  expect(rows.map(({ unit }) => unit)).toEqual(["V-2", "V-1"]);
});

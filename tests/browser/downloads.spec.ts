import { expect } from "@playwright/test";
import Papa from "papaparse";
import { importFiles, standingImports, withDemoFleet } from "./demo-fleet.ts";
import { openBudget, openPlan, openRecord, test } from "./page-checks.ts";

withDemoFleet();

/** Pages with tables, and how many files each offers at the least. */
const offered: readonly (readonly [address: string, files: number])[] = [
  ["/", 1],
  ["/round?days=91", 1],
  // Windows, tests, chances, use, engines, forecasts; repairs and checks where there are any.
  ["/units/V-109", 6],
  ["/engines", 1],
  ["/engines/QD6-4315", 3],
  ["/compare?unit=V-104", 3],
  ["/compare/rates", 1],
  ["/compare/testers", 1],
  ["/record", 4],
  // Spans, groups, units; in a year without a repair nothing was spent.
  ["/budget", 3],
  ["/models", 1],
  ["/models/petrol-4-a", 1],
  ["/causes/calls", 1],
  ["/depots", 1],
  ["/depots/Highcol", 2],
  ["/settings/workshop", 1],
  ["/units/V-109/record?what=status", 1],
  ["/import", 1],
  ["/plan/parts", 1],
  // Bookings and load; what found no room and what waits where there is any.
  ["/plan/depots/Highcol/note", 2],
];

test("every table of a page is there as a file, with a head and rows as wide", async ({ page, request }) => {
  test.slow();
  await openRecord(page);
  await openBudget(page);
  await openPlan(page, "/plan");
  const [demo = ""] = await standingImports(request);
  for (const [address, files] of [...offered, [`/import/${demo}`, 2] as const]) {
    await page.goto(address);
    const links = page.locator("main a[download]").filter({ hasText: /^(Download|All these figures as) CSV/ });
    expect(await links.count(), address).toBeGreaterThanOrEqual(files);
    for (const href of await links.evaluateAll((all) => all.map((link) => link.getAttribute("href") ?? ""))) {
      const answer = await request.get(href, { headers: { connection: "close" } });
      expect(answer.status(), href).toBe(200);
      expect(answer.headers()["content-type"], href).toBe("text/csv; charset=utf-8");
      expect(answer.headers()["content-disposition"], href).toMatch(/^attachment; filename="[\w.-]+\.csv"/);
      const text = (await answer.body()).toString("utf8");
      expect(text.startsWith("\ufeff"), href).toBe(true);
      const { data, errors } = Papa.parse<string[]>(text.slice(1), { skipEmptyLines: true });
      expect(errors, href).toEqual([]);
      expect(data.length, href).toBeGreaterThan(1);
      expect(new Set(data.map((row) => row.length)).size, href).toBe(1);
    }
  }
});

test("what is not there is refused in a sentence, and a formula does not leave as one", async ({ request }) => {
  for (const [address, says] of [
    ["/units/Z-999/csv/tests", "No unit"],
    ["/units/V-109/csv/constructor", "no table of this name"],
    ["/units/V-109/csv/test-history?date=1999-01-01&test=leak-down&attempt=1", "no table of this name"],
    ["/engines/none/csv/units", "No engine of this number"],
    ["/engines/QD6-4315/csv/none", "no table of this name"],
    ["/depots/Nowhere/csv/changes", "No depot of this name"],
    ["/depots/Highcol/csv/none", "no table of this name"],
    ["/models/none/versions.csv", "No engine model of this id"],
    ["/import/none/files.csv", "not known"],
    ["/compare.csv?table=none", "no table of this name"],
    ["/record.csv?table=none", "no table of this name"],
    ["/plan/csv/none", "no table of this name"],
    ["/plan/calendar/Nowhere.ics", "No depot of this name"],
  ] as const) {
    const answer = await request.get(address, { headers: { connection: "close" } });
    expect(answer.status(), address).toBe(404);
    expect(await answer.text(), address).toContain(says);
  }
  const check = "unit,check_date,check,result,remarks\nV-109,2026-08-01,borescope,clear,=1+1\n";
  await importFiles(request, { "checks.csv": check });
  const text = await (await request.get("/units/V-109/csv/checks", { headers: { connection: "close" } })).text();
  expect(text).toContain(",'=1+1\r\n");
});

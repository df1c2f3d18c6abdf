import { expect, type Page } from "@playwright/test";
import { importFiles, undoImport, withDemoFleet } from "./demo-fleet.ts";
import { finding, openRecord, test } from "./page-checks.ts";

/** Why a forecast may be believed, and how far: what stands on the pages beside the date. */

withDemoFleet();

const sheet = (page: Page, name: string) => page.getByRole("region", { name, exact: true });

test("V-106, not at top dead centre: the windows with its doubtful test and without it", async ({ page }) => {
  await page.goto("/units/V-106");
  const both = sheet(page, "With and without the doubtful tests");
  const row = (name: string) => both.getByRole("row", { name: new RegExp(`^${name}`) });
  // Believed in full, a reading of 96 % would have the top end done at once.
  await expect(row("With them in full").getByRole("cell").first()).toContainText(/\d{4}|now/);
  await expect(row("Without them").getByRole("cell").first()).toHaveText("not foreseen");
  await expect(row("As told above, by their weights").getByRole("cell").first()).toHaveText("not foreseen");
});

test("a unit whose tests nobody doubts is told once, not with and without", async ({ page }) => {
  await page.goto("/units/L-203");
  await expect(finding(page)).toContainText("Top-end repair likely");
  await expect(sheet(page, "With and without the doubtful tests")).toHaveCount(0);
});

test("L-203, a valve burning away: the first test that told, and how many false warnings were chosen", async ({
  page,
}) => {
  await page.goto("/units/L-203");
  const warning = sheet(page, "Early warning");
  await expect(warning).toContainText("1.5 false warnings in 100 cylinder-years were chosen, and the limit follows");
  const row = warning.getByRole("row", { name: /^3 leak-down/ });
  await expect(row).toContainText("10 Jul 2026");
  await expect(row).toContainText("exhaust");
  const told = (await row.getByRole("cell").nth(4).textContent()) ?? "";
  const [evidence = "0", limit = "0"] = told.match(/\d+\.\d/g) ?? [];
  expect(Number(evidence)).toBeGreaterThan(Number(limit));
  await page.goto("/units/L-201");
  await expect(warning).toHaveCount(0);
});

test("V-109, a gasket: each test that would settle the causes, with how much it is expected to settle", async ({
  page,
}) => {
  await page.goto("/units/V-109?measure=leak-down&cylinder=3");
  const causes = sheet(page, "Causes, cylinder 3");
  await expect(causes.getByRole("list", { name: "Causes by their share" })).toContainText(/Head gasket.*9\d\s%/s);
  const coolant = causes.getByRole("listitem").filter({ hasText: "Test the coolant for combustion gas" });
  await expect(coolant).toContainText(/of what is open, in some 0\.8\sh/);
  await expect(coolant).toContainText(/speaks for or against: .*head gasket/);
});

test("a valve burnt in an engine with worn rings: both repairs are advised together, and why", async ({
  page,
  request,
}) => {
  const days = [
    "2024-09-02,100000",
    "2025-03-03,118000",
    "2025-09-01,136000",
    "2026-02-02,151000",
    "2026-08-03,169000",
  ];
  const leaks = [16, 20, 25, 31, 37];
  const rows = days.flatMap((day, i) =>
    [1, 2, 3, 4].map((cylinder) => {
      const isBurnt = cylinder === 2 && i === days.length - 1;
      const [value, heard] = isBurnt ? [55, "exhaust"] : [leaks[i], "crankcase"];
      return `V-198,petrol-4-a,${day},km,leak-down,${cylinder},${value},%,1.016,${heard},Lowmarsh`;
    }),
  );
  const head = "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit,orifice_mm,heard_at,depot";
  const id = await importFiles(request, { "worn.csv": [head, ...rows].join("\n") });
  await page.goto("/units/V-198");
  await expect(finding(page)).toContainText(/Past its limit: cylinder 2.*exhaust valve/);
  const words =
    /^Both together: the (top|bottom)-end repair is due now, and the chance that a (bottom|top)-end one is due within 18 months of it is \d+\s%\. A bottom-end repair contains a top-end one/;
  await expect(page.getByRole("main").getByText(words)).toBeVisible();
  await page.goto("/units/V-198/sheet");
  await expect(page.getByRole("main").getByText(words)).toBeVisible();
  await undoImport(request, id);
});

test("the track record shows how often ranges held, and what was told against what was seen", async ({ page }) => {
  test.slow();
  await openRecord(page);
  const held = page.getByRole("table", { name: "How often ranges held, by forecast" });
  await expect(held.getByRole("columnheader")).toContainText(["50 % held", "80 % held", "90 % held"]);
  const own = held.getByRole("row", { name: /^Borecast/ });
  const shares = (await own.getByRole("cell").allTextContents()).slice(2, 5).map((words) => Number.parseInt(words, 10));
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect(shares[1], "of the ranges meant to hold 80 in 100").toBeGreaterThan(65);
  const diagram = page.getByRole("figure").filter({ hasText: "Leak-down: reads no worse than told" });
  await expect(diagram).toBeVisible();
  await expect.poll(() => diagram.locator("circle").count()).toBeGreaterThan(2);
});

import { readFileSync } from "node:fs";
import { expect } from "@playwright/test";
import Papa from "papaparse";
import { withDemoFleet, withEmptyStore } from "./demo-fleet.ts";
import {
  expectAccessible,
  expectKeyboard,
  expectPrintable,
  expectToFit,
  finding,
  openRecord,
  test,
} from "./page-checks.ts";

test.describe("with the demo fleet", () => {
  withDemoFleet();

  test("the record comes by itself, is led to from the header, and tells ranges beside simpler forecasts", async ({
    page,
  }) => {
    test.slow();
    await page.goto("/");
    await page.getByRole("banner").getByRole("link", { name: "Track record" }).click();
    await expect(page).toHaveURL("/record");
    await openRecord(page);
    const overall = page.getByRole("table", { name: "How often ranges held, by forecast" });
    for (const name of ["Borecast", "Straight-line trend", "Same as last time", "Fixed interval"]) {
      await expect(overall.getByRole("rowheader", { name })).toBeVisible();
    }
    await expect(page.getByText("tells no level, only when a repair is due")).toBeVisible();
    await expect(page.getByText("no limit was met and borne out")).toBeVisible();
    await expect(page.getByText("No test has come after them, so it can’t be told yet")).toBeVisible();

    await page.getByRole("navigation", { name: "Told apart by" }).getByText("Tester").click();
    await expect(page).toHaveURL("/record?measure=leak-down&by=tester");
    const testers = page.getByRole("table", { name: "How often ranges held, by tester" });
    const few = testers.locator('tr[data-few="true"]').first();
    await expect(few.getByRole("cell").nth(2)).toHaveText(/^\d+ of \d+$/);
    await page.getByRole("navigation", { name: "Kind of test" }).getByText("Compression").click();
    await expect(page).toHaveURL("/record?measure=compression-dry&by=tester");
  });

  test("the figures of a group lead to the readings behind them, a miss to its cylinder's course", async ({ page }) => {
    await openRecord(page, "/record?measure=leak-down&by=model");
    const row = page
      .getByRole("row")
      .filter({ has: page.getByRole("rowheader", { name: "petrol-4-a" }) })
      .first();
    const [download] = await Promise.all([page.waitForEvent("download"), row.locator("a[download]").click()]);
    const text = readFileSync(await download.path(), "utf8").replace(/^\ufeff/, "");
    const { data } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
    const shown = (await row.locator("a[download]").textContent()) ?? "";
    expect(data.length).toBe(Number(/^[\d,]+/.exec(shown)?.[0].replace(",", "")));
    expect(new Set(data.map(({ engine_model }) => engine_model))).toEqual(new Set(["petrol-4-a"]));

    const misses = page.getByRole("table", { name: "Readings furthest from what was told" });
    await misses.getByRole("link").first().click();
    await expect(page).toHaveURL(/\/units\/[\w-]+\?measure=(leak-down|compression-dry)&cylinder=\d/);
  });

  test("factors that it asks for are in force, and a unit that is told with them leads back to it", async ({
    page,
  }) => {
    await openRecord(page);
    const widths = page.getByRole("table", { name: "Widths of ranges by model" });
    await expect(widths.getByText(/^(widened|narrowed) by \d+\s%$/).first()).toBeVisible();
    await page.goto("/units/V-104");
    await expect(page.getByText(/Ranges of .* by \d+\s%.*, as this model’s past forecasts asked\./)).toBeVisible();
    await page.getByRole("link", { name: "How past forecasts turned out" }).click();
    await expect(page).toHaveURL("/record");
  });

  test("the record fits every screen, breaks no rule of accessibility, and goes on paper", async ({ page }) => {
    test.slow();
    await openRecord(page);
    await expectToFit(page, [390, 768, 1080, 1440]);
    await expectAccessible(page);
    await page.setViewportSize({ width: 390, height: 900 });
    await expectAccessible(page);
    await expectKeyboard(page);
    await expectPrintable(page);
  });
});

test.describe("with an empty store", () => {
  withEmptyStore();

  test("nothing can be judged, and what is needed is told", async ({ page }) => {
    await page.goto("/record");
    await expect(finding(page)).toContainText("No forecast can be judged yet");
    await expect(page.getByRole("main").getByRole("link", { name: "Import test results" })).toBeVisible();
    await expectToFit(page, [390, 1080]);
    await expectAccessible(page);
  });
});

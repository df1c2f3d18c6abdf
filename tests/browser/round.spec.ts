import { readFileSync } from "node:fs";
import { expect, type Page } from "@playwright/test";
import Papa from "papaparse";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectKeyboard, expectPrintable, expectToFit, finding, test } from "./page-checks.ts";

withDemoFleet();

const rows = (page: Page) => page.locator(".round-table tbody").getByRole("row");

test("a depot's round: from the Fleet, ticked off, kept after a reload, and as a file", async ({ page }) => {
  await page.goto("/?depot=Midfell");
  await page.getByRole("main").getByRole("link", { name: "Test round" }).click();
  await expect(page).toHaveURL("/round?depot=Midfell");
  await expect(finding(page)).toContainText(/\d+ units? of Midfell (is|are) due for a test by 28 Sep 2026/);
  await expect(page.getByText("min for each cylinder and kind of test")).toBeVisible();

  const units = await rows(page).getByRole("rowheader").getByRole("link").allTextContents();
  expect(units.length).toBeGreaterThan(1);
  const first = rows(page).first();
  await first.getByRole("checkbox").check();
  await expect(page.getByRole("status").first()).toContainText(`1 of ${units.length} ticked off`);
  await page.reload();
  await expect(rows(page).first().getByRole("checkbox")).toBeChecked();
  await rows(page).first().getByRole("checkbox").uncheck();
  await expect(page.getByText("Tick off what is done")).toBeVisible();

  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: "Download CSV" }).click(),
  ]);
  expect(download.suggestedFilename()).toBe("test-round-Midfell-2026-09-28.csv");
  const text = readFileSync(await download.path(), "utf8").replace(/^\ufeff/, "");
  const { data } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
  expect(data.map(({ unit }) => unit)).toEqual(units);
  for (const { why, hours, depot } of data) {
    expect(why).toMatch(/^(first|interval|sooner|question)( question)*$/);
    expect(Number(hours)).toBeGreaterThan(0);
    expect(depot).toBe("Midfell");
  }
});

test("further ahead there are more units, and each kind of reason is told", async ({ page }) => {
  await page.goto("/round?days=0");
  await expect(finding(page)).toContainText("due for a test now");
  const now = await rows(page).count();
  await page.getByRole("navigation", { name: "How far ahead" }).getByText("3 months").click();
  await expect(page).toHaveURL("/round?days=91");
  await expect.poll(() => rows(page).count()).toBeGreaterThan(now);
  await expect(rows(page).filter({ hasText: "Never tested" })).not.toHaveCount(0);
  await expect(rows(page).filter({ hasText: "Repeat: " })).not.toHaveCount(0);
  await page.getByLabel("Depot").selectOption("Highcol");
  await page.getByRole("button", { name: "Show that depot" }).click();
  await expect(page).toHaveURL("/round?days=91&depot=Highcol");
  await expect(finding(page)).toContainText("of Highcol");
});

test("the round is led to from a depot and a unit, and fits screens, keyboard and paper", async ({ page }) => {
  test.slow();
  await page.goto("/depots/Highcol");
  await page.getByRole("main").getByRole("link", { name: "Test round" }).click();
  await expect(page).toHaveURL("/round?depot=Highcol");
  await page.goto("/units/V-109");
  await page.getByRole("main").getByRole("link", { name: "Test round" }).click();
  await expect(page).toHaveURL(/\/round\?depot=/);
  await page.goto("/round?days=91");
  await expectToFit(page);
  await expectAccessible(page);
  await page.goto("/round");
  await expectKeyboard(page);
  await page.goto("/round?days=91");
  await expectPrintable(page);
});

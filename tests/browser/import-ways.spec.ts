import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, type Page } from "@playwright/test";
import { bookParts, sheetOfTexts, zipOf } from "../lib/intake/workbook/made-up-workbook.ts";
import { demoFolder, withEmptyStore } from "./demo-fleet.ts";
import { expectAccessible, finding, giveName, test } from "./page-checks.ts";

/** The ways in beside a CSV file: a workbook, a paste, and a file that is read otherwise than it was at first. */

const chooser = (page: Page) => page.locator("main input[type=file]");
const header = ["unit", "engine_model", "test_date", "meter", "meter_unit", "test", "cylinder", "value", "value_unit"];
const rowsOf = (unit: string) =>
  [1, 2, 3, 4].map((cylinder) => [
    unit,
    "petrol-4-a",
    "2026-03-02",
    "4180",
    "km",
    "leak-down",
    `${cylinder}`,
    "9",
    "%",
  ]);
const sheetOf = (unit: string) => sheetOfTexts([header, ...rowsOf(unit)]);
const workbook = zipOf(
  bookParts({
    sheets: [
      { name: "Lowmarsh", xml: sheetOf("V-1") },
      { name: "Midfell", xml: sheetOf("V-2") },
    ],
  }),
);
const models = {
  name: "models.json",
  mimeType: "application/json",
  buffer: readFileSync(path.join(demoFolder, "engine-models.json")),
};

test.describe.configure({ mode: "serial" });
withEmptyStore();

test.beforeEach(({ page }) => giveName(page));

test("a workbook is read by its first sheet, may be read by another, and comes back as it was given", async ({
  page,
}) => {
  await chooser(page).setInputFiles([
    models,
    { name: "tests.xlsx", mimeType: "application/octet-stream", buffer: workbook },
  ]);
  await expect(finding(page)).toContainText("new rows");
  const row = page.getByRole("row", { name: /^tests\.xlsx/ });
  await expect(row).toContainText("sheet “Lowmarsh”");
  await expect(page.getByText('the rows are those of the sheet "Lowmarsh"')).toBeVisible();
  const first = page.url();

  await page.getByText("Read the files otherwise").click();
  await page.getByLabel("Sheet").selectOption("Midfell");
  await expectAccessible(page);
  await page.getByRole("button", { name: "Read again" }).click();
  await expect(row).toContainText("sheet “Midfell”");
  expect(page.url()).not.toBe(first);

  const [download] = await Promise.all([
    page.waitForEvent("download"),
    row.getByRole("link", { name: "tests.xlsx" }).click(),
  ]);
  expect(download.suggestedFilename()).toBe("tests.xlsx");
  expect(readFileSync(await download.path()).equals(workbook)).toBe(true);

  await page.getByRole("button", { name: "Commit" }).click();
  await expect(finding(page)).toContainText("One unit was assessed", { timeout: 60_000 });
  await expect(row.getByRole("link", { name: "tests.xlsx" })).toBeVisible();
});

test("rows that are pasted go the way of a file, and stay where they cannot be sent", async ({ page }) => {
  await expect(page.getByText("Up to 200 MB a file.")).toBeVisible();
  await page.getByText("Or paste rows from a spreadsheet").click();
  const area = page.getByRole("textbox", { name: "Rows" });
  const text = [header, ...rowsOf("V-3")].map((cells) => cells.join("\t")).join("\n");
  await expectAccessible(page);
  await area.fill(text);
  await page.context().setOffline(true);
  await page.getByRole("button", { name: "Read these rows" }).click();
  await expect(page.getByText("The server cannot be reached.")).toBeVisible();
  await expect(area).toHaveValue(text);
  await page.context().setOffline(false);
  await page.getByRole("button", { name: "Read these rows" }).click();
  await page.waitForURL(/\/import\/.+/);
  await expect(page.getByRole("row", { name: /^Pasted rows\.txt/ })).toContainText("parted by tabs");
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
});

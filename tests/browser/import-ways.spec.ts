import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, type Page } from "@playwright/test";
import { bookParts, sheetOfTexts, zipOf } from "../lib/intake/workbook/made-up-workbook.ts";
import { demoFolder, withEmptyStore } from "./demo-fleet.ts";
import { expectAccessible, finding, giveName, test } from "./page-checks.ts";

/** The ways in beside a CSV file: a workbook, a paste, and a file that is read otherwise than it was at first. */

const slowly = { timeout: 60_000 };
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
// Each goes from the file to the assessed unit and back, on a machine that does other things as well.
test.slow();
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
  await expect(finding(page)).toContainText("One unit was assessed", slowly);
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

  await page.getByRole("button", { name: "Commit" }).click();
  await expect(finding(page)).toContainText("One unit was assessed", slowly);
  const address = page.url();
  await page.goto("/units/V-3");
  await expect(finding(page)).toContainText("eakage");
  await page.goto(address);
  await page.getByRole("button", { name: "Undo this import" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Undo it" }).click();
  await expect(finding(page)).toContainText("count no more", slowly);
  await expectAccessible(page);
  // The rows stay with the import as they were pasted.
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: "Pasted rows.txt" }).click(),
  ]);
  expect(readFileSync(await download.path(), "utf8")).toBe(text);
  await page.goto("/units/V-3");
  await expect(finding(page)).toContainText("No unit");
});

/** Changes the largest file of the settings, in MB: no band hangs on it, so it is in force at once. */
async function limitFiles(page: Page, megabytes: string): Promise<void> {
  await page.goto("/settings");
  await page.getByLabel("Largest file, MB").fill(megabytes);
  await page.getByRole("button", { name: "See what it changes" }).click();
  await expect(page.getByText("In force.", { exact: true })).toBeVisible(slowly);
}

test("a file over the limit of the settings is refused in a sentence, and nothing of it is kept", async ({
  page,
  request,
}) => {
  const headers = { connection: "close" };
  const imports = async () => (await request.get("/api/imports", { headers })).json();
  const uploads = path.join(process.env["BORECAST_TEST_DATA"] ?? "", "uploads");
  const line = `${rowsOf("V-9")[0]?.join(",")}\n`;
  const large = `${header.join(",")}\n${line.repeat(1_100_000 / line.length)}`;
  const before = await imports();
  const says =
    "A file may have up to 1 MB. Cut it in two, each part with the header row, or change the limit in the Settings.";
  await limitFiles(page, "1");

  await page.goto("/import");
  await expect(page.getByText("Up to 1 MB a file.")).toBeVisible();
  await chooser(page).setInputFiles({ name: "large.csv", mimeType: "text/csv", buffer: Buffer.from(large) });
  await expect(page.getByText(`large.csv is too large. ${says}`)).toBeVisible();
  await expect(page.getByText("Nothing was taken in; what was known before is unchanged.")).toBeVisible();
  await expectAccessible(page);

  // A program sends it all the same, and so would a page that was opened before: a browser complains of that answer.
  const by = "R. Ames";
  const begun = await request.post("/api/uploads", { params: { by }, headers });
  const { upload } = (await begun.json()) as { upload: string };
  const send = (data: string) =>
    request.post(`/api/uploads/${upload}`, { params: { by, name: "large.csv" }, headers, data });
  const refused = await send(large);
  expect([refused.status(), await refused.json()]).toEqual([413, { error: says }]);
  expect(readdirSync(path.join(uploads, upload))).toEqual([]);
  expect((await request.post("/api/imports", { params: { by }, headers, data: { upload } })).status()).toBe(400);
  expect(readdirSync(uploads)).not.toContain(upload);
  expect(await imports()).toEqual(before);

  await limitFiles(page, "200");
  await page.goto("/import");
  await chooser(page).setInputFiles({ name: "large.csv", mimeType: "text/csv", buffer: Buffer.from(large) });
  await expect(page.getByRole("row", { name: /^large\.csv/ })).toBeVisible(slowly);
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
});

test("an empty file is refused as one, with no question that nobody could answer", async ({ page }) => {
  await page.goto("/import");
  await chooser(page).setInputFiles({ name: "nought.csv", mimeType: "text/csv", buffer: Buffer.alloc(0) });
  await page.waitForURL(/\/import\/[\w-]+$/, slowly);
  await expect(finding(page)).toHaveText("The file is empty. Nothing is kept of it.");
  await expect(page.getByRole("region", { name: /^Refused/ })).toContainText("The file is empty.");
  await expect(page.getByText("waits for an answer")).toHaveCount(0);
  await expect(page.getByRole("link", { name: /columns/ })).toHaveCount(0);
  await expectAccessible(page);
});

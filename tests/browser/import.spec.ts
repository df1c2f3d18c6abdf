import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, type Page } from "@playwright/test";
import { demoFiles, demoFolder, withEmptyStore } from "./demo-fleet.ts";
import { expectAccessible, finding, giveName, test } from "./page-checks.ts";

const chooser = (page: Page) => page.locator("main input[type=file]");

/** Drops files as a mouse would: the page itself sees only what a drop carries. */
async function drop(page: Page, files: readonly string[]): Promise<void> {
  const carried = files.map((file) => ({ name: path.basename(file), text: readFileSync(file, "utf8") }));
  const transfer = await page.evaluateHandle((all) => {
    const data = new DataTransfer();
    for (const { name, text } of all) data.items.add(new File([text], name));
    return data;
  }, carried);
  const area = page.getByText("or drop them here");
  await area.dispatchEvent("dragover", { dataTransfer: transfer });
  await area.dispatchEvent("drop", { dataTransfer: transfer });
}

test.describe.configure({ mode: "serial" });
withEmptyStore();

test("from an empty app to the fleet and back: drop, see, commit, undo", async ({ page }) => {
  test.slow();
  await page.goto("/");
  await expect(finding(page)).toContainText("No tests yet");
  await giveName(page);
  await expect(page.getByRole("button", { name: "Load the demo fleet" })).toBeVisible();
  await expectAccessible(page);
  const listed = page.getByRole("region", { name: "Last imports" }).getByRole("listitem");
  const before = await listed.count();

  await drop(page, demoFiles);
  await page.waitForURL(/\/import\/.+/);
  await expect(finding(page)).toContainText("new rows");
  await expect(finding(page)).toContainText("one refused");
  const refused = page.getByRole("region", { name: "Refused: 1" });
  await expect(refused.getByRole("listitem")).toHaveCount(1);
  await expect(refused.getByRole("listitem")).toContainText("meters.csv");
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    refused.getByRole("link", { name: "Download CSV" }).click(),
  ]);
  const lines = readFileSync(await download.path(), "utf8")
    .trim()
    .split("\r\n");
  expect(lines).toHaveLength(2);
  expect(lines[1]).toMatch(/^meters\.csv,\d+,/);
  // The meter of V-112 was replaced as that of its twin V-111 was, but nobody said so.
  expect(lines[1]).toContain("the meter 35 km is lower than 212,400 km");
  await expect(page.getByRole("row", { name: /^engine-models\.json/ })).toContainText("Engine models");
  await expectAccessible(page);
  const address = page.url();

  await page.getByRole("button", { name: "Commit" }).click();
  await expect(finding(page)).toContainText("40 units were assessed", { timeout: 60_000 });
  await expect(page.getByText(/^Committed on .* by R\. Ames\.$/)).toBeVisible();
  await expectAccessible(page);

  await page.getByRole("link", { name: "Go to the Fleet" }).click();
  await expect(page.getByRole("link", { name: "40 all units" })).toBeVisible();
  const fleet = (await (await page.request.get("/api/assessment")).json()) as { units: { unit: string }[] };
  expect(fleet.units).toHaveLength(40);
  const unit = page.getByRole("link", { name: /^V-112/ });
  await page.goto("/?search=V-112");
  await unit.click();
  await page.waitForURL(/\/units\/V-112/);
  await expect(page).toHaveTitle(/V-112/);
  await page.goBack();
  await expect(unit).toBeVisible();

  await page.getByRole("navigation", { name: "Pages" }).getByRole("link", { name: "Import" }).click();
  await expect(listed).toHaveCount(before + 1);
  await expect(listed.first()).toContainText("taken in");

  await chooser(page).setInputFiles(path.join(demoFolder, "units.csv"));
  await expect(finding(page)).toContainText("Nothing new: 40 rows are known already.");
  await expect(page.getByRole("table")).toContainText("the very file was imported before");
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
  await listed.first().getByRole("link").click();
  await page.waitForURL(address);

  await page.getByRole("button", { name: "Undo this import" }).click();
  const ask = page.getByRole("dialog");
  await expect(ask).toContainText(/Undo this import\? [\d,]+ rows go, and the assessments of 40 units/);
  await ask.getByRole("button", { name: "Keep it" }).click();
  await expect(ask).toBeHidden();
  await page.getByRole("button", { name: "Undo this import" }).click();
  await ask.getByRole("button", { name: "Undo it" }).click();
  await expect(finding(page)).toContainText("count no more", { timeout: 60_000 });
  await page.getByRole("navigation", { name: "Pages" }).getByRole("link", { name: "Fleet" }).click();
  await expect(finding(page)).toContainText("No tests yet");
});

test("a cancelled import leaves nothing behind", async ({ page }) => {
  await giveName(page);
  const header = "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit\n";
  const rows = Array.from(
    { length: 200_000 },
    (_, n) =>
      `N-${n >> 6},petrol-4-a,2025-01-${String(1 + ((n >> 2) % 16)).padStart(2, "0")},${n % 64},h,leak-down,${1 + (n % 4)},9,%`,
  );
  const listed = page.getByRole("region", { name: "Last imports" }).getByRole("listitem");
  const before = await listed.count();
  const models = path.join(demoFolder, "engine-models.json");
  await chooser(page).setInputFiles([
    { name: "models.json", mimeType: "application/json", buffer: readFileSync(models) },
    { name: "many.csv", mimeType: "text/csv", buffer: Buffer.from(header + rows.join("\n")) },
  ]);
  await expect(page.getByText(/^(Reading: |Checking rows)/)).toBeVisible();
  await expect(page.getByRole("progressbar")).toBeVisible();
  await page.getByRole("button", { name: "Cancel" }).click();
  await expect(page.getByText("Cancelled. Nothing was kept.")).toBeVisible();
  await expect(listed).toHaveCount(before);
  const { imports } = (await (await page.request.get("/api/imports")).json()) as { imports: unknown[] };
  expect(imports).toHaveLength(before);
});

test("a file that is none, an unknown import and a foreign page are answered in a sentence", async ({ page }) => {
  await giveName(page);
  await chooser(page).setInputFiles({
    name: "photo.csv",
    mimeType: "text/csv",
    buffer: Buffer.from([0x89, 0x50, 0xff, 0]),
  });
  await expect(finding(page)).toContainText("The file could not be read");
  await expect(page.getByRole("button", { name: "Commit" })).toBeDisabled();
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
  await expect(page.getByRole("region", { name: "Last imports" }).getByText("photo.csv")).toHaveCount(0);

  const foreign = await page.request.post("/api/uploads", { headers: { origin: "http://elsewhere.example" } });
  expect(foreign.status()).toBe(403);
  const unknown = await page.request.post("/api/imports/none/undo");
  expect([unknown.status(), await unknown.json()]).toEqual([404, { error: "This import is not known." }]);
  await page.goto("/import/none");
  await expect(finding(page)).toContainText("This import is not known");
});

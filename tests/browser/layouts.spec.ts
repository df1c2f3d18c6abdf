import { expect, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

withDemoFleet();
test.beforeEach(({ page }) => giveName(page));

const slowly = { timeout: 60_000 };

/** A workshop's own columns; which of day and month comes first is told only by the fourth row, where there is one. */
const sheetOf = (...dates: readonly string[]) =>
  [
    "Workshop results;;;;;;",
    "Truck;Tested;Odometer (km);Leak cyl 1 %;Leak cyl 2 %;Leak cyl 3 %;Leak cyl 4 %",
    ...dates.map((date, i) => `V-11${i};${date};${190_000 + i};12,5;10;9;11`),
  ].join("\n");

async function giveFile(page: Page, name: string, text: string): Promise<void> {
  await page.goto("/import");
  await page.locator("main input[type=file]").setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.waitForURL(/\/import\/[\w-]+$/, slowly);
}
const columns = (page: Page) => page.getByRole("region", { name: "Its columns" });

test("a file with columns of its own is read as it tells, and its columns are shown", async ({ page }) => {
  await giveFile(page, "round.csv", sheetOf("24.03.2026"));
  await expect(
    page.getByText(/round\.csv has columns of its own; they were read as its headings and cells tell/),
  ).toBeVisible();
  await page.getByRole("link", { name: "See its columns" }).click();
  await expect(finding(page)).toContainText("how the columns of round.csv are read");
  const truck = columns(page).getByRole("group", { name: "Truck" });
  await expect(truck.getByLabel("Read as")).toHaveValue("unit");
  await expect(columns(page).getByRole("group", { name: "Leak cyl 3 %" }).getByLabel("Of cylinder")).toHaveValue("3");
  await page.getByRole("link", { name: "Back to the import" }).click();
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
});

test("what a file does not tell is asked, answered, kept by a name, and known the next time", async ({ page }) => {
  await giveFile(page, "yard.csv", sheetOf("03.04.2026"));
  await page.getByRole("link", { name: "Say how its columns are read" }).click();
  await expect(finding(page)).toContainText("cannot be read before one question is answered");
  await expectToFit(page);
  await expectAccessible(page);
  await columns(page).getByRole("group", { name: "Truck" }).getByLabel("Read as").selectOption("ignored");
  await page.getByRole("button", { name: "Read it so" }).click();
  await expect(columns(page).getByText("Nothing tells the unit.")).toBeVisible();
  await expectAccessible(page);
  await columns(page).getByRole("group", { name: "Truck" }).getByLabel("Read as").selectOption("unit");
  await columns(page).getByLabel("Dates").selectOption("day-first");
  await columns(page).getByLabel("Keep it by the name").fill("Yard sheet");
  await page.getByRole("button", { name: "Read it so" }).click();
  await page.waitForURL(/\/import\/[\w-]+$/, slowly);
  await expect(
    page.getByText("yard.csv has columns of its own; they were read by the layout “Yard sheet”."),
  ).toBeVisible();
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");

  await giveFile(page, "next.csv", sheetOf("05.02.2026"));
  await expect(
    page.getByText("next.csv has columns of its own; they were read by the kept layout “Yard sheet”."),
  ).toBeVisible();
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
});

import { expect, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

withDemoFleet();
test.slow();
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

test("where no headings are found, a person chooses them and maps each column, and is asked no more the next time", async ({
  page,
}) => {
  const yard = (date: string) =>
    `List of the yard;;;;;\nwho;when;far;one way;other;third\nV-112;${date};191000;11,5;11,7;11,6\n`;
  await giveFile(page, "strange.csv", yard("24.03.2026"));
  await expect(finding(page)).toContainText("The file waits for an answer");
  await expect(page.getByRole("region", { name: "What is to be answered" })).toContainText("No row of the file looks");
  await expectAccessible(page);
  await page.getByRole("link", { name: "Answer, and see its columns" }).click();
  await expect(finding(page)).toContainText("In strange.csv no row of headings was found.");
  await expectToFit(page);
  await expectAccessible(page);
  const rows = page.getByRole("region", { name: "Which row has the headings?" });
  await rows.getByLabel("Row 2").check();
  await rows.getByRole("button", { name: "Take these headings" }).click();
  await expect(columns(page).getByRole("group", { name: "one way" })).toBeVisible(slowly);
  await expectAccessible(page);
  const readAs = (name: string) => columns(page).getByRole("group", { name, exact: true });
  await readAs("who").getByLabel("Read as").selectOption("unit");
  await readAs("far").getByLabel("Read as").selectOption("meter");
  for (const [i, name] of ["one way", "other", "third"].entries()) {
    await readAs(name).getByLabel("Read as").selectOption("reading");
    await readAs(name)
      .getByLabel("Of cylinder")
      .selectOption(String(i + 1));
    await readAs(name).getByLabel("Of test").selectOption("compression-dry");
  }
  await columns(page).getByLabel("Unit of the meter").selectOption("km");
  await columns(page).getByLabel("Unit of the readings").selectOption("bar");
  await columns(page).getByLabel("Keep it by the name").fill("Strange yard");
  await page.getByRole("button", { name: "Read it so" }).click();
  await page.waitForURL(/\/import\/[\w-]+$/, slowly);
  await expect(page.getByText(/they were read by the layout “Strange yard”/)).toBeVisible();
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
  await giveFile(page, "later.csv", yard("25.03.2026"));
  await expect(page.getByText(/they were read by the kept layout “Strange yard”/)).toBeVisible();
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
});

test("a file with an open question says so, names it and leads to its answer", async ({ page }) => {
  await giveFile(page, "asked.csv", sheetOf("03.04.2026").replaceAll("Leak cyl", "Leakage cyl"));
  await expect(finding(page)).toContainText("The file waits for an answer. Nothing is read before.");
  await expect(page.getByText("waits for an answer", { exact: true }).filter({ visible: true })).toBeVisible();
  await expect(page.locator("main")).not.toContainText("not readable");
  const asked = page.getByRole("region", { name: "What is to be answered" });
  await expect(asked).toContainText("whether the day or the month comes first");
  await expectToFit(page);
  await expectAccessible(page);
  await asked.getByRole("link", { name: "Answer, and see its columns" }).click();
  await expect(finding(page)).toContainText("cannot be read before one question is answered");
  await page.getByRole("link", { name: "Back to the import" }).click();
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
});

test("cells that the contract does not take are read by a layout of its own headings", async ({ page }) => {
  const file = [
    "unit,test_date,meter,meter_unit,test,cylinder,value,value_unit",
    "V-112,2026-07-21,209950,km,compression-dry,1,170psi,psi",
    "V-112,2026-07-21,209950,km,compression-dry,2,171,psi",
  ].join("\n");
  await giveFile(page, "written.csv", file);
  await expect(page.getByText(/written\.csv has the headings that are read without a layout/)).toBeVisible();
  await page.getByRole("link", { name: "Read it by a layout" }).click();
  await expect(finding(page)).toContainText("Read written.csv by a layout");
  await page.getByRole("button", { name: "Read it so" }).click();
  await page.waitForURL(/\/import\/[\w-]+$/, slowly);
  await expect(finding(page)).toContainText("Two new rows");
  await page.getByRole("button", { name: "Discard" }).click();
  await page.waitForURL("**/import");
});

import { readFileSync } from "node:fs";
import { expect, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
withDemoFleet();
test.beforeEach(({ page }) => giveName(page));

const slowly = { timeout: 60_000 };
const text = [
  "Bay book;;;;;;",
  "Lorry;Day;Clock (km);Loss 1 %;Loss 2 %;Loss 3 %;Loss 4 %",
  "V-110;30.08.2026;250.000;12,5;1o;9;11",
  "",
].join("\n");

const main = (page: Page) => page.locator("main");
const columns = (page: Page) => page.getByRole("region", { name: "Its columns" });
const versions = (page: Page) => page.getByRole("region", { name: "Versions" }).locator("tbody tr");
/** In the form of a layout: what one of its columns is read as. */
const column = (page: Page, heading: string) => page.getByRole("group", { name: heading, exact: true });

test("a refused cell of a workshop's own file is put right in its own column, and the file stays as it was", async ({
  page,
  request,
}) => {
  await page.goto("/import");
  await main(page)
    .locator("input[type=file]")
    .setInputFiles({ name: "bay.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.waitForURL(/\/import\/[\w-]+$/, slowly);
  await page.getByRole("link", { name: /columns( are read)?$/ }).click();
  await column(page, "Lorry").getByLabel("Read as").selectOption("unit");
  await columns(page).getByLabel("Keep it by the name").fill("Bay book");
  await page.getByRole("button", { name: "Read it so" }).click();
  await page.waitForURL(/\/import\/[\w-]+$/, slowly);
  const before = page.url();

  const refused = page.getByRole("region", { name: /^Refused/ });
  await expect(refused).toContainText('Line 3, Loss 2 %: "1o" is not a number');
  await refused.getByText("Put it right here").click();
  await expectAccessible(page);
  await refused.getByLabel("Line 3, Loss 2 %").fill("10,5");
  await refused.getByRole("button", { name: "Read it so" }).click();
  await expect(refused).toHaveCount(0);
  expect(page.url()).not.toBe(before);
  await expect(finding(page)).toContainText("Four new rows");
  const id = page.url().split("/").at(-1) ?? "";
  const kept = await request.get(`/api/imports/${id}/files/1`);
  expect(await kept.text()).toBe(text);
  await page.getByRole("button", { name: "Commit" }).click();
  await expect(page.getByRole("button", { name: "Undo this import" })).toBeVisible(slowly);
});

test("one press reads all that was typed in the refused cells of any row", async ({ page }) => {
  const rows = ["V-110;31.08.2026;250.010;12,5;1o;9;x", "V-110;01.09.2026;250.020;12,5;11;y;11"];
  const buffer = Buffer.from([...text.split("\n").slice(0, 2), ...rows, ""].join("\n"));
  await page.goto("/import");
  await main(page).locator("input[type=file]").setInputFiles({ name: "bay-2.csv", mimeType: "text/csv", buffer });
  await page.waitForURL(/\/import\/[\w-]+$/, slowly);
  const refused = page.getByRole("region", { name: /^Refused/ });
  for (const fold of await refused.getByText("Put it right here").all()) await fold.click();
  await refused.getByLabel("Line 3, Loss 2 %").fill("10,5");
  await refused.getByLabel("Line 3, Loss 4 %").fill("10");
  await refused.getByLabel("Line 4, Loss 3 %").fill("9,5");
  await refused.getByRole("button", { name: "Read it so" }).first().click();
  await expect(refused).toHaveCount(0, slowly);
  await expect(finding(page)).toContainText("Eight new rows");
});

test("the layout is listed with what it recognises and its use, and is found", async ({ page }) => {
  await page.goto("/import");
  await page.getByRole("link", { name: "Layouts that are kept" }).click();
  const line = page.getByRole("listitem").filter({ has: page.getByRole("link", { name: "Bay book", exact: true }) });
  await expect(line).toContainText("Used by one import");
  await expect(line).toContainText("Lorry · Day · Clock (km)");
  await expect(line).toContainText("Leak-down of 4 cylinders");
  await expectToFit(page);
  await expectAccessible(page);
  await page.goto("/find?q=bay+book");
  await main(page).getByRole("link", { name: "Bay book", exact: true }).click();
  await expect(finding(page)).toHaveText("Leak-down of 4 cylinders.");
  await expect(columns(page).getByRole("row", { name: /Loss 2 %/ })).toContainText("Leak-down, cylinder 2, in %");
  await expectToFit(page);
  await expectAccessible(page);
});

test("it is changed as a version, refused with reasons, renamed, and put back", async ({ page }) => {
  await page.goto("/import/layouts/Bay%20book");
  await page.getByRole("link", { name: "Change it" }).click();
  await column(page, "Loss 2 %").getByLabel("Of cylinder").selectOption("1");
  await page.getByLabel("Name", { exact: true }).fill(" ");
  await page.getByRole("button", { name: "Keep it so" }).click();
  await expect(page.getByText("2 fields are not taken; the reason stands beside each.")).toBeVisible();
  await expect(column(page, "Loss 2 %")).toContainText('It tells the same as column 4, "Loss 1 %".');
  await expectAccessible(page);
  await expectToFit(page);
  await column(page, "Loss 2 %").getByLabel("Of cylinder").selectOption("2");
  await column(page, "Lorry").getByLabel("Read as").selectOption("ignored");
  await page.getByLabel("Name", { exact: true }).fill("Bay book, east");
  await page.getByRole("button", { name: "Keep it so" }).click();
  await expect(page.getByText("Nothing tells the unit. Choose its column")).toBeVisible();
  await column(page, "Lorry").getByLabel("Read as").selectOption("unit");
  await column(page, "Loss 4 %").getByLabel("Read as").selectOption("ignored");
  await page.getByRole("button", { name: "Keep it so" }).click();
  await expect(page.getByText("Kept as version 2.")).toBeVisible();
  await expect(page.getByText("Used by one import")).toBeVisible();
  await expect(versions(page).first()).toContainText("R. Ames");
  await expect(versions(page).first()).toContainText("leak-down, cylinder 4, in %");
  await expect(versions(page).first()).toContainText("Bay book, east");
  await versions(page)
    .last()
    .getByRole("button", { name: /^Put back/ })
    .click();
  await expect(versions(page)).toHaveCount(3);
  await expect(columns(page).getByRole("row", { name: /Loss 4 %/ })).toContainText("Leak-down, cylinder 4, in %");
  await expectAccessible(page);
});

test("two people who change it at once do not overwrite each other", async ({ page, context }) => {
  await page.goto("/import/layouts/Bay%20book%2C%20east/edit");
  const other = await context.newPage();
  await other.goto("/import/layouts/Bay%20book%2C%20east/edit");
  await column(other, "Loss 3 %").getByLabel("Read as").selectOption("ignored");
  await other.getByRole("button", { name: "Keep it so" }).click();
  await expect(other.getByText("Kept as version 4.")).toBeVisible();
  await page.getByRole("button", { name: "Keep it so" }).click();
  await expect(page.getByText("R. Ames changed this layout meanwhile.")).toBeVisible();
});

test("it goes out as JSON, comes in under another name or as a version, and what is no layout is refused", async ({
  page,
}) => {
  await page.goto("/import/layouts/Bay%20book%2C%20east");
  const leaves = page.waitForEvent("download");
  await page.getByRole("link", { name: "Download as JSON" }).click();
  const download = await leaves;
  expect(download.suggestedFilename()).toBe("Bay book_ east.json");
  const json = readFileSync(await download.path());

  const give = async (name: string, buffer: Buffer) => {
    await main(page).locator("input[type=file]").setInputFiles({ name, mimeType: "application/json", buffer });
    await expect(main(page).getByText(name)).toBeVisible();
  };
  await give("east.json", json);
  await page.getByRole("button", { name: "Keep it as the next version" }).click();
  await expect(page.getByText("Kept as version 5.")).toBeVisible();

  await page.goto("/import/layouts");
  await page.getByRole("button", { name: "Keep the layout" }).click();
  await expect(page.getByText("Choose the file first.")).toBeVisible();
  await give(
    "West book.json",
    Buffer.from('{"layoutVersion":1,"headerRows":1,"columns":[{"header":"A","is":"wheel"}]}'),
  );
  await page.getByRole("button", { name: "Keep the layout" }).click();
  await expect(page.getByText("columns 1.is must be ignored or reading or field.")).toBeVisible();
  await expectAccessible(page);
  await give("West book.json", json);
  await main(page).getByLabel("Keep it by the name").fill("Bay book, east");
  await page.getByRole("button", { name: "Keep the layout" }).click();
  await expect(page.getByText("Another layout has this name")).toBeVisible();
  await main(page).getByLabel("Keep it by the name").fill("West book");
  await page.getByRole("button", { name: "Keep the layout" }).click();
  await expect(page.getByText("Kept as version 1.")).toBeVisible();
});

test("it is withdrawn, listed apart, and put back", async ({ page }) => {
  const withdraw = async (name: string) => {
    await page.goto(`/import/layouts/${encodeURIComponent(name)}`);
    await page.getByRole("button", { name: "Withdraw it" }).click();
    await expectAccessible(page);
    await page.getByRole("dialog").getByRole("button", { name: "Withdraw it" }).click();
    await expect(page.getByText("No file is recognised by it.")).toBeVisible();
  };
  await withdraw("West book");
  await expect(versions(page).first()).toContainText("Withdrawn by R. Ames");
  await expectAccessible(page);
  await page.goto("/import/layouts");
  const apart = page.getByRole("region", { name: "Withdrawn" });
  await expect(apart.getByRole("link", { name: "West book", exact: true })).toBeVisible();
  await expect(
    page.getByRole("region", { name: "In use" }).getByRole("link", { name: "West book", exact: true }),
  ).toHaveCount(0);
  await expectAccessible(page);
  await apart.getByRole("link", { name: "West book", exact: true }).click();
  await page.getByRole("button", { name: /^Put it back/ }).click();
  await expect(page.getByRole("button", { name: "Withdraw it" })).toBeVisible();
  await withdraw("West book");
  await withdraw("Bay book, east");
});

test("a layout that is not there is told so, with those that are called much like it", async ({ page }) => {
  const answer = await page.goto("/import/layouts/Bay");
  expect(answer?.status()).toBe(404);
  await expect(finding(page)).toHaveText("No layout of this name is kept.");
  await expect(main(page).getByRole("link", { name: "Bay book, east" })).toBeVisible();
});

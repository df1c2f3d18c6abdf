// Named so that it runs after the pages of an empty store were looked at: prices that a person told stay told.
import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, type Page } from "@playwright/test";
import { demoFolder, withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
// States are looked at in two themes and two widths.
test.slow();
withDemoFleet();

const at = "/settings/workshop";
const save = (page: Page) => page.getByRole("button", { name: "Save", exact: true }).click();
const row = (page: Page, name: string) => page.getByRole("group", { name, exact: true });
const history = (page: Page) => page.getByRole("region", { name: "Changes of prices and workshops" });
const rate = (page: Page) => row(page, "Money").getByLabel("Labour rate, an hour");

test("prices, a class and a group are changed by the keyboard, refused with a reason, kept and put back", async ({
  page,
}) => {
  await giveName(page);
  await page.goto("/settings");
  await page.locator("main").getByRole("link", { name: "Prices and workshops" }).click();
  await expect(finding(page)).toContainText("an hour of labour costs 58");
  await expect(history(page).getByRole("row").nth(1)).toContainText("demo");

  await rate(page).fill("61.5");
  await page.getByText("van", { exact: true }).click();
  await page.getByRole("group", { name: "Class van" }).getByLabel("In peak weeks").fill("0");
  await page.getByRole("button", { name: "Add a group" }).focus();
  await page.keyboard.press("Enter");
  await expect(row(page, "Group 1").getByLabel("Name")).toBeFocused();
  await page.keyboard.type("Route 4");
  await page.keyboard.press("Tab");
  await page.keyboard.type("V-101, V-999");
  await page.keyboard.press("Tab");
  await page.keyboard.type("1");
  await page.keyboard.press("Enter");
  await expect(page.getByText("A factor from 1 to 100, or nothing for that of any class.")).toBeVisible();
  await page.getByRole("group", { name: "Class van" }).getByLabel("In peak weeks").fill("3");
  await save(page);
  await expect(row(page, "Group 1").getByText(/^No unit V-999 is known: look at how it is written/)).toBeVisible();
  await expect(row(page, "Group 1").getByLabel("Units", { exact: true })).toBeFocused();
  await expectToFit(page);
  await expectAccessible(page);

  await row(page, "Group 1").getByLabel("Units", { exact: true }).fill("V-101, V-102");
  await save(page);
  await expect(page.getByText(/^Saved\. The next plan and budget/)).toBeVisible();
  await expect(finding(page)).toContainText("an hour of labour costs 61.5");
  const first = history(page).getByRole("row").nth(1);
  await expect(first).toContainText("R. Ames");
  await expect(first).toContainText("V-101 and V-102, at most 1 out");
  await expectAccessible(page);

  await row(page, "Group 1").getByRole("button", { name: "Remove group 1" }).click();
  await expect(page.getByRole("button", { name: "Add a group" })).toBeFocused();
  await expect(page.getByText("Not saved yet.")).toBeVisible();
  await save(page);
  await expect(history(page).getByRole("row").nth(1)).toContainText(
    /Group Route 4: V-101 and V-102, at most 1 out.*none/,
  );
  await history(page)
    .getByRole("button", { name: /^Back to before this/ })
    .first()
    .click();
  await expect(finding(page)).toContainText("an hour of labour costs 58");
  await expect(rate(page)).toHaveValue("58");
  await expect(row(page, "Group 1")).toHaveCount(0);
});

test("asks back before it saves what may hardly be meant, with every value that changes", async ({ page }) => {
  await giveName(page);
  await page.goto(at);
  await row(page, "Money").getByLabel("Labour grows by").fill("200");
  await save(page);
  await expect(page.getByText("Not saved yet: is it meant so?")).toBeVisible();
  await expect(page.getByText("One value would change:")).toBeVisible();
  await expect(page.getByText(/^Labour grows by 200 % a year/)).toBeVisible();
  // The answer brings the page anew, without its title for a moment.
  await page.waitForLoadState("networkidle");
  await expectAccessible(page);
  await page.getByRole("button", { name: "Save it all the same" }).click();
  await expect(page.getByText(/^Saved\. The next plan and budget/)).toBeVisible();
  // The list's first row is this change only once it is there.
  await expect(history(page).getByRole("row").nth(1)).toContainText(/labour grows/i);
  await history(page)
    .getByRole("button", { name: /^Back to before this/ })
    .first()
    .click();
  await expect(row(page, "Money").getByLabel("Labour grows by")).not.toHaveValue("200");
});

test("the second of two people who save is told of the first, and nothing of either is lost", async ({
  page,
  browser,
}) => {
  const other = await (await browser.newContext()).newPage();
  await giveName(page);
  await other.goto(page.url());
  await other.locator("main").getByLabel("Your name").fill("B. Clerk");
  await other.locator("main").getByRole("button", { name: "Keep name" }).click();
  await expect(other.getByText("or drop them here")).toBeVisible();
  await page.goto(at);
  await other.goto(page.url());
  await other.getByLabel("Plan runs for, weeks").fill("60");
  await save(other);
  await expect(other.getByText(/^Saved\./)).toBeVisible();
  await rate(page).fill("70");
  await save(page);
  await expect(page.getByText("B. Clerk changed prices and workshops while you wrote.")).toBeVisible();
  await expect(page.getByLabel("Plan runs for, weeks")).toHaveValue("60");
  await expect(rate(page)).toHaveValue("70");
  await save(page);
  await expect(finding(page)).toContainText(/costs 70.*run for 60 weeks/);
  await other.context().close();
});

test("a file is downloaded, looked at, refused with a reason, and kept with its depots", async ({ page }) => {
  await giveName(page);
  const told = JSON.parse(await (await page.request.get(`${at}.json`)).text());
  expect(told).toMatchObject({ labourRate: 70, planWeeks: 60, depots: { Highcol: { builders: 1, labourRate: 62 } } });
  // What tests before this one told of the depot stands.
  const bays: number = told.depots.Midfell.bays;
  await page.goto(at);
  const choose = async (document: object) => {
    const file = { name: "workshop.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(document)) };
    await page.locator('input[type="file"]').setInputFiles(file);
    await page.getByRole("button", { name: "See what it changes" }).click();
  };
  await choose({ ...told, depots: { Nowhere: { bays: 1 } } });
  await expect(page.getByText(/^The file is not usable: depots\.Nowhere: No depot Nowhere is known/)).toBeVisible();
  await choose({ ...told, planWeeks: 7 });
  await expect(page.getByText(/^The file is not usable: planWeeks:/)).toBeVisible();
  await choose(told);
  await expect(page.getByText("The file says what is in force: it changes nothing.")).toBeVisible();

  const demo = JSON.parse(readFileSync(path.join(demoFolder, "workshop.json"), "utf8"));
  await choose({ ...demo, depots: { ...demo.depots, Midfell: { bays: bays + 1 } } });
  await expect(page.getByText(`Depot Midfell: bays ${bays} → ${bays + 1}`)).toBeVisible();
  await expectToFit(page);
  await expectAccessible(page);
  await page.getByRole("button", { name: "Keep the file" }).click();
  await expect(page.getByText("Kept: the form shows the file.")).toBeVisible();
  await expect(finding(page)).toContainText(/costs 58.*run for 52 weeks/);
  await page.goto("/depots/Midfell");
  await expect(page.getByRole("textbox", { name: "Bays" })).toHaveValue(String(bays + 1));
  await page
    .getByRole("button", { name: /^Undo this/ })
    .first()
    .click();
  await expect(page.getByRole("textbox", { name: "Bays" })).toHaveValue(String(bays));
});

// Named so that it runs after the pages of an empty store were looked at: what a person told of a depot stays told.
import { expect, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
// States are looked at in two themes and two widths.
test.slow();
withDemoFleet();

const period = (page: Page, number: number) => page.getByRole("group", { name: `Period ${number}`, exact: true });
const save = (page: Page) => page.getByRole("button", { name: "Save", exact: true }).click();
const slowly = { timeout: 60_000 };
const itsYear = (page: Page) => page.getByRole("region", { name: "Its year" });

test("a depot's weeks are changed, refused with a reason, seen in its year, and put back", async ({ page }) => {
  await giveName(page);
  await page.goto("/depots");
  await expect(page.getByText("Closed weeks 46 to 8")).toBeVisible();
  await page.getByRole("link", { name: "Highcol" }).click();
  await expect(finding(page)).toContainText("80 %");
  await page.getByRole("button", { name: "Add weeks of every year" }).click();
  await period(page, 2).getByLabel("Kind").selectOption("peak");
  await period(page, 2).getByLabel("From week").fill("8");
  await period(page, 2).getByLabel("to week").fill("22");
  await expect(period(page, 2).getByText("16 Feb 2026 to 31 May 2026, 15 weeks")).toBeVisible();
  await page.getByRole("button", { name: "Add dates, once" }).click();
  await period(page, 3).getByLabel("From", { exact: true }).fill("2026-10-09");
  await period(page, 3).getByLabel("to, that day included").fill("2026-10-05");
  await save(page);
  await expect(period(page, 3).getByText("The last day lies before the first.")).toBeVisible();
  await expectToFit(page);
  await expectAccessible(page);
  await period(page, 3).getByLabel("to, that day included").fill("2026-10-11");
  await save(page);
  await expect(period(page, 2).getByText("Lies over period 1.")).toBeVisible();
  await expect(itsYear(page).getByText("Peak")).toHaveCount(0);

  await period(page, 2).getByLabel("From week").fill("20");
  await save(page);
  await expect(page.getByText(/^Saved\. 3 periods in force/)).toBeVisible();
  await expect(itsYear(page).getByText("Peak weeks 20 to 22")).toBeVisible();
  await expect(itsYear(page).getByText("Closed 9 Oct 2026 to 11 Oct 2026, once")).toBeVisible();
  const changes = page.getByRole("region", { name: "Changes of Highcol" });
  await expect(changes.getByRole("row").nth(1)).toContainText("R. Ames");
  await expect(changes.getByRole("row").nth(1)).toContainText("added peak weeks 20 to 22");
  await expectAccessible(page);
  await page.goto("/depots");
  await expect(page.getByText("Peak weeks 20 to 22")).toBeVisible();

  await page.goBack();
  await changes.getByRole("button", { name: "Undo this" }).click();
  await expect(itsYear(page).getByText("Peak weeks 20 to 22")).toHaveCount(0);
  await expect(period(page, 2)).toHaveCount(0);
  await expect(itsYear(page).getByText("Closed weeks 46 to 8")).toBeVisible();
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
  await page.goto("/depots/Midfell");
  await other.goto(page.url());
  await other.getByRole("textbox", { name: "Bays" }).fill("3");
  await save(other);
  await expect(other.getByText(/^Saved\./)).toBeVisible();
  await page.getByRole("textbox", { name: "Technicians" }).fill("5");
  await save(page);
  await expect(page.getByText("B. Clerk saved this depot while you wrote.")).toBeVisible();
  await expect(page.getByRole("textbox", { name: "Bays" })).toHaveValue("3");
  await expect(page.getByRole("textbox", { name: "Technicians" })).toHaveValue("5");
  await expectAccessible(page);
  await save(page);
  await expect(page.getByText(/^Saved\./)).toBeVisible();
  await page.reload();
  await expect(page.getByRole("textbox", { name: "Bays" })).toHaveValue("3");
  await expect(page.getByRole("textbox", { name: "Technicians" })).toHaveValue("5");
  await other.context().close();
});

test("another altitude names the units that it would move before it is in force, and is put back", async ({ page }) => {
  await giveName(page);
  await page.goto("/depots/Highcol");
  const field = page.getByLabel("Altitude, m");
  await field.fill("99999");
  await page.getByRole("button", { name: "See what it changes" }).click();
  await expect(page.getByText("Metres above the sea, from −500 to 11,000.")).toBeVisible();
  await expect(field).toBeFocused();
  await expectAccessible(page);
  await field.fill("0");
  await page.getByRole("button", { name: "See what it changes" }).click();
  const inForce = page.getByRole("button", { name: "Put it in force" });
  await expect(inForce).toBeVisible({ timeout: 60_000 });
  await expect(page.getByRole("heading", { name: /units would change their band/ })).toBeFocused();
  await expectToFit(page);
  await expectAccessible(page);
  await expect(finding(page)).toContainText("1,850");
  await inForce.click();
  await expect(finding(page)).toContainText("as good as sea level", { timeout: 60_000 });
  const told = page.getByRole("region", { name: "Altitudes told of Highcol" });
  await expect(told.getByRole("row").nth(1)).toContainText("R. Ames");
  await told
    .getByRole("link", { name: /^Put back/ })
    .first()
    .click();
  await expect(field).toHaveValue("1850");
  await page.getByRole("button", { name: "See what it changes" }).click();
  await expect(inForce).toBeVisible({ timeout: 60_000 });
  await inForce.click();
  await expect(finding(page)).toContainText("80 %", { timeout: 60_000 });
});

test("a depot leads to its units in the Fleet", async ({ page }) => {
  await page.goto("/depots/Lowmarsh");
  await page.getByRole("link", { name: "18 units" }).click();
  await page.waitForURL(/depot=Lowmarsh/);
  await expect(page.getByRole("combobox", { name: "Depot", exact: true })).toHaveValue("Lowmarsh");
});

test("a depot is added by hand, refused with reasons first, and goes with the undo of its import", async ({ page }) => {
  await giveName(page);
  await page.goto("/depots");
  const add = page.getByRole("region", { name: "Add a depot" });
  await add.getByLabel("Name").fill("highcol");
  await add.getByLabel("Altitude, m").fill("1,200");
  await add.getByRole("button", { name: "Add the depot" }).click();
  await expect(add.getByText("There is a depot Highcol already.")).toBeVisible();
  await expect(add.getByText(/may be read as 1200 or as 1\.2/)).toBeVisible();
  await expect(add.getByLabel("Name")).toBeFocused();
  await expectToFit(page);
  await expectAccessible(page);
  await add.getByLabel("Name").fill("North yard");
  await add.getByLabel("Altitude, m").fill("1200");
  await add.getByRole("button", { name: "Add the depot" }).click();
  await page.waitForURL("**/depots/North%20yard");
  await expect(finding(page)).toContainText("North yard lies at 1,200 m");
  await page.getByRole("link", { name: /^Import of/ }).click();
  await page.getByRole("button", { name: /^Undo this/ }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Undo it" }).click();
  await expect(finding(page)).toContainText("Undone", slowly);
  await page.goto("/depots");
  await expect(page.getByRole("link", { name: "North yard" })).toHaveCount(0);
});

test("a depot is retired, listed apart, and taken back", async ({ page }) => {
  await giveName(page);
  await page.goto("/depots/Midfell");
  await page.getByRole("checkbox", { name: "Retired: no longer used" }).check();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await expect(page.getByText("No longer used; what was tested here still counts.")).toBeVisible();
  await expectToFit(page);
  await expectAccessible(page);
  await page.goto("/depots");
  const retired = page.getByRole("region", { name: "Retired" });
  await expect(retired.getByRole("link", { name: "Midfell" })).toBeVisible();
  await expectToFit(page);
  await expectAccessible(page);
  await retired.getByRole("link", { name: "Midfell" }).click();
  await page
    .getByRole("button", { name: /^Undo this/ })
    .first()
    .click();
  await expect(page.getByText("No longer used; what was tested here still counts.")).toBeHidden();
  await expect(page.getByRole("cell", { name: "taken back into use", exact: true })).toBeVisible();
});

import { expect, type Locator, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { finding, test } from "./page-checks.ts";

/**
 * What each user asks of a week and of a month, as far as pages answer it, in no more than two steps from the front page:
 * the planner (what falls due, can it wait), the workshop lead (what to test, whose slope changed, is a tester off) and
 * the operator (what moved, and why).
 */

withDemoFleet();
test.use({ viewport: { width: 1440, height: 900 } });

const main = (page: Page) => page.getByRole("main");
const counts = (page: Page) => page.getByRole("navigation", { name: "Units by band and open matter" });
const units = (page: Page) => page.getByRole("region", { name: "Units" });
const firstUnit = (page: Page) => units(page).getByRole("rowheader").getByRole("link").first();
const place = (page: Page, title: string) =>
  page.getByRole("banner").getByRole("navigation").getByRole("link", { name: title, exact: true });

test("planner, each week: what falls due first, and can it wait until after its next slot?", async ({ page }) => {
  await page.goto("/");
  await expect(finding(page)).toContainText(/past its limit/);
  // Soonest first: what is past its limit leads, then the likely dates ascend.
  await expect(units(page).getByRole("row").nth(1)).toContainText(/V-109.*top now/s);
  await counts(page)
    .getByRole("link", { name: /^\d+ plan$/ })
    .click();
  await page.waitForURL("**/?band=plan");
  const unit = await firstUnit(page).getAttribute("title");
  await firstUnit(page).click();
  await page.waitForURL("**/units/*");
  await expect(finding(page)).toContainText(/repair likely|repair hardly before/);
  const chance = page.getByRole("region", { name: "Chance of being past the limit" });
  await expect(chance).toContainText(/Within the planning lead time, by 31 Aug 2027: (top|bottom)-end \d+\s%/);
  await chance.getByText("Figures by month").click();
  await expect(chance.getByRole("row").nth(2)).toContainText(/Sep|Oct/);
  expect(unit).toContain(":");
});

test("planner, each month: which repairs fall into weeks in which their depot is closed?", async ({ page }) => {
  await page.goto("/");
  await expect(finding(page)).toContainText("At Highcol three of them fall due while the depot is closed.");
  await page.goto("/?group=depot");
  const highcol = units(page).getByRole("row", { name: /^Highcol/ });
  await expect(highcol).toContainText(/closed 9 Nov 2026 to 28 Feb 2027/);
});

test("workshop lead, each week: which units are to be tested next, and with which care?", async ({ page }) => {
  await page.goto("/");
  await counts(page)
    .getByRole("link", { name: /no recent test$/ })
    .click();
  await page.waitForURL("**/?band=overdue");
  await expect(firstUnit(page)).toContainText("M-603");
  await firstUnit(page).click();
  await page.waitForURL("**/units/M-603");
  await expect(main(page).getByText("Next test due").locator("..")).toContainText("overdue");
  const next = page.getByRole("region", { name: /^Next/ });
  await expect(next.getByRole("listitem").first()).toBeVisible();
  await expect(next).toContainText("Caution.");
});

test("workshop lead, each month: who declines faster than its sisters?", async ({ page }) => {
  await page.goto("/");
  await place(page, "Compare").click();
  await page.waitForURL("**/compare*");
  const standings = page.getByRole("region", { name: "Who declines fastest", exact: true });
  await expect(standings.getByRole("row").nth(1)).toContainText(/\d+ of its (\d+ )?sisters/);
  await standings.getByRole("rowheader").getByRole("link").first().click();
  await page.waitForURL("**/units/*");
  await expect(page.getByRole("heading", { name: "Cylinders as they stand in the engine" })).toBeVisible();
});

test("workshop lead, each month: does one instrument read high?", async ({ page }) => {
  await page.goto("/");
  await place(page, "Compare").click();
  await page
    .getByRole("navigation", { name: "What is compared" })
    .getByRole("link", { name: /testers/i })
    .click();
  await page.waitForURL("**/compare/testers*");
  await expect(finding(page)).toContainText(/read|instrument|tester/i);
  await expect(main(page).getByRole("table").first().getByRole("row").nth(1)).toContainText(/tester|gauge/);
});

test("operator, each week: what moved since I last looked, and why?", async ({ page }) => {
  await page.goto("/");
  await main(page)
    .getByRole("link", { name: /changed since/ })
    .click();
  await page.waitForURL("**/changes*");
  await expect(finding(page)).toContainText(/changed since/);
  await main(page).getByRole("link", { name: "90 days" }).click();
  await page.waitForURL("**since=**");
  await expect(finding(page)).toContainText(/changed since|new in the fleet/);
});

/** Presses Tab until the element has the focus, as somebody without a mouse would. */
async function tabTo(page: Page, wanted: Locator, most = 60): Promise<void> {
  for (let i = 0; i < most; i++) {
    await page.keyboard.press("Tab");
    if (await wanted.evaluate((element) => element === document.activeElement)) return;
  }
  throw new Error(`${wanted} was not reached by ${most} presses of Tab`);
}

test("by keyboard alone: from the front page to a unit, its causes and a closer look at its chart", async ({
  page,
}) => {
  await page.goto("/");
  await page.keyboard.press("Tab");
  await expect(page.getByRole("link", { name: "Skip to the page" })).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(main(page)).toBeFocused();
  await tabTo(page, counts(page).getByRole("link", { name: /^\d+ plan$/ }));
  await page.keyboard.press("Enter");
  await page.waitForURL("**/?band=plan");
  await expect(counts(page).getByRole("link", { name: /^\d+ plan$/ })).toHaveAttribute("aria-current", "true");
  await tabTo(page, units(page).getByRole("rowheader").getByRole("link", { name: "L-203" }), 80);
  await page.keyboard.press("Enter");
  await page.waitForURL("**/units/L-203");
  await expect(finding(page)).toContainText("Cylinder 3, probably the exhaust valve");
  const leakage = page.getByRole("region", { name: /^Leakage of every cylinder/ });
  await tabTo(page, leakage.getByRole("link", { name: "Compression" }));
  await page.keyboard.press("Enter");
  await page.waitForURL("**measure=compression-dry**");
  await expect(page.getByRole("region", { name: /^Compression of every cylinder/ })).toBeVisible();
  await page.goBack();
  await expect(leakage).toBeVisible();
});

test.describe("on a phone", () => {
  test.use({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    userAgent: "Mozilla/5.0 (Linux; Android 14) Mobile",
  });

  test("the operator sees what is past its limit, why, and what comes next", async ({ page }) => {
    await page.goto("/");
    await expect(units(page).getByText(/^Units 1–12 of 40/)).toBeVisible();
    await counts(page)
      .getByRole("link", { name: /past limit$/ })
      .tap();
    await page.waitForURL("**/?band=past-limit");
    await units(page).getByRole("link", { name: "V-109" }).first().tap();
    await page.waitForURL("**/units/V-109");
    await expect(finding(page)).toContainText("Past its limit: cylinder 3");
    await expect(page.getByRole("region", { name: /^Next/ })).toContainText("combustion gas");
    const beyond = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(beyond).toBeLessThanOrEqual(0);
  });
});

import { expect, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { finding, test } from "./page-checks.ts";

/** Why a unit's date is what it is, as its page tells: by tests, by sisters, and by what one more test would do. */

withDemoFleet();

const sheet = (page: Page, name: string) => page.getByRole("region", { name, exact: true });

test("by keys from the unit to why its date is what it is, and back", async ({ page }) => {
  await page.goto("/units/V-104");
  await page.getByRole("link", { name: "Why this date" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForURL("**/units/V-104/why");
  await expect(finding(page)).toContainText(/^Cylinder 2 decides: its leakage, 19\.9\s% now, likely meets its limit/);
  await page.getByRole("navigation", { name: "Way back" }).getByRole("link", { name: "V-104" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForURL("**/units/V-104");
});

test("the date of the unit's page and its range are those that are explained", async ({ page }) => {
  await page.goto("/units/V-104");
  const told = await finding(page).textContent();
  const [, early, late, likely] =
    /^Bottom-end repair likely between (\w+ \d+) and (\w+ \d+), most likely (\w+ \d+)\./.exec(told ?? "") ?? [];
  expect(likely, told ?? "").toBeDefined();
  await page.goto("/units/V-104/why");
  const words = `The bottom-end repair, by all cylinders and what may be wrong with them: early ${early}, likely ${likely}, late ${late}.`;
  await expect(page.getByRole("main").getByText(words).first()).toBeVisible();
  const window = page.getByRole("group").filter({ hasText: "The unit’s window" });
  await window.getByText("The unit’s window").click();
  await expect(window.getByRole("strong")).toHaveText(likely ?? "");
  await expect(window.getByRole("paragraph")).toContainText(words);
});

test("each test is told by what the date would be without it, and how far it is relied on", async ({ page }) => {
  await page.goto("/units/V-104/why");
  const rows = sheet(page, "What each test does to the date").getByRole("table").getByRole("row");
  // V-104 was tested seven times for leakage.
  await expect(rows).toHaveCount(8);
  for (const row of (await rows.all()).slice(1)) {
    await expect(row.getByRole("cell").first()).toContainText(/(days?|months?) (sooner|later)|the same/);
    await expect(row.getByRole("cell").nth(1)).toContainText(/\d+ (months?|days?)|no late end/);
    await expect(row.getByRole("cell").last()).toHaveText(/^\d+\s%$/);
  }
  await expect(page.getByRole("main")).toContainText(/The leak-down test of 27 Jul 2026 moves the likely date most/);
});

test("own tests and sisters share the whole of what is said of the rate", async ({ page }) => {
  await page.goto("/units/V-104/why");
  const rests = sheet(page, "What its rate rests on");
  await expect(rests).toContainText("the rest its 11 sister engines");
  const share = async (words: string) =>
    Number.parseInt(
      (await rests.getByRole("listitem").filter({ hasText: words }).textContent())?.match(/\d+/)?.[0] ?? "",
      10,
    );
  const [own, sisters] = [await share("this engine’s own tests"), await share("its sister engines")];
  expect(own).toBeGreaterThan(0);
  expect(sisters).toBeGreaterThan(0);
  expect(own + sisters).toBe(100);
});

test("a next test as foreseen narrows the range; one that reads worse brings the date nearer", async ({ page }) => {
  await page.goto("/units/V-104/why");
  const next = sheet(page, "What a test next month would do");
  const cell = async (row: string, at: number) =>
    (await next
      .getByRole("row", { name: new RegExp(`^${row}`) })
      .getByRole("cell")
      .nth(at)
      .textContent()) ?? "";
  const months = async (row: string) => Number.parseInt(await cell(row, 2), 10);
  const likely = async (row: string) => Date.parse(`1 ${await cell(row, 1)}`);
  expect(await months("it reads as foreseen")).toBeLessThan(await months("no test"));
  expect(await likely("it reads worse")).toBeLessThan(await likely("it reads as foreseen"));
  expect(await likely("it reads better")).toBeGreaterThan(await likely("it reads as foreseen"));
  await next.getByRole("link", { name: "Enter a test" }).click();
  await page.waitForURL("**/units/V-104/test");
});

test("past its limit there is no date to narrow, and an aircraft's engine carries its own line", async ({ page }) => {
  await page.goto("/units/V-109/why");
  await expect(finding(page)).toContainText("is at or past its limit");
  await expect(sheet(page, "What a test next month would do")).toContainText("cannot narrow a date");
  await page.goto("/units/A-703/why");
  await expect(page.getByText("Approved data and a licensed engineer decide.")).toBeVisible();
});

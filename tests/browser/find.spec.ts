import { expect, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, test } from "./page-checks.ts";

withDemoFleet();

const box = (page: Page) => page.getByRole("dialog");
const field = (page: Page) => box(page).getByRole("combobox");
const options = (page: Page) => box(page).getByRole("option");

/** Before the page's script runs, keys do nothing yet. */
async function openByKeys(page: Page): Promise<void> {
  await expect(async () => {
    await page.keyboard.press("Control+k");
    await expect(field(page)).toBeFocused({ timeout: 1000 });
  }).toPass();
}

test("Ctrl-K finds a unit by the beginning of its number and opens it, by keys alone", async ({ page }) => {
  await page.goto("/depots");
  await openByKeys(page);
  await expect(options(page).first()).toContainText("Fleet");
  await page.keyboard.type("v-10");
  await expect(options(page).first()).toContainText("V-101");
  await expect(options(page).first()).toHaveAttribute("aria-selected", "true");
  await page.keyboard.press("ArrowDown");
  await expect(options(page).nth(1)).toHaveAttribute("aria-selected", "true");
  const second = await options(page).nth(1).getAttribute("id");
  await expect(field(page)).toHaveAttribute("aria-activedescendant", second ?? "");
  await page.keyboard.press("Enter");
  await page.waitForURL("**/units/V-102");
  await expect(box(page)).toBeHidden();
});

test("Enter before the answer has come opens what was typed, not what was found before", async ({ page }) => {
  await page.goto("/depots");
  await openByKeys(page);
  await page.keyboard.type("v-10");
  await expect(options(page).first()).toContainText("V-101");
  let answer = () => {};
  const held = new Promise<void>((resolve) => {
    answer = resolve;
  });
  await page.route("**/api/search?q=h-304", async (route) => {
    await held;
    await route.continue();
  });
  await field(page).fill("h-304");
  await expect(box(page).getByRole("status")).toHaveText("Looking …");
  await expect(options(page).first()).toBeDisabled();
  await page.keyboard.press("Enter");
  await expect(page).toHaveURL(/depots$/);
  answer();
  await page.waitForURL("**/units/H-304");
});

test("engines, depots, pages and words are found, each under its heading", async ({ page }) => {
  await page.goto("/");
  await openByKeys(page);
  for (const [text, group, says] of [
    ["QP4-3511", "Engines", "now in V-101"],
    ["v109", "Units", "V-109"],
    ["highc", "Depots", "Highcol"],
    ["lowmarsh depot", "Depots", "Lowmarsh"],
    ["petrol v8", "Engine models", "petrol-v8-a"],
    ["undo", "Pages", "Import"],
    ["blow-by", "Words", "crankcase"],
  ] as const) {
    await field(page).fill(text);
    await expect(box(page).getByRole("group", { name: group }).getByRole("option").first()).toContainText(says);
  }
});

test("what is found by nothing says what to do; Escape closes and gives the keyboard back", async ({ page }) => {
  await page.goto("/");
  const button = page.getByRole("banner").getByRole("link", { name: "Find unit or page" });
  await expect(async () => {
    // Once it is open it lies over the button, and a second click would wait for it to go.
    if (!(await box(page).isVisible())) await button.click();
    await expect(field(page)).toBeFocused({ timeout: 1000 });
  }).toPass();
  await field(page).fill("no such thing");
  await expect(box(page).getByRole("status")).toContainText("Try fewer letters");
  await expectAccessible(page);
  await field(page).fill("v-1");
  await expect(options(page).first()).toContainText("V-101");
  await expectToFit(page);
  await expectAccessible(page);
  await page.keyboard.press("Escape");
  await expect(box(page)).toBeHidden();
  await expect(button).toBeFocused();
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("the button leads to a page that finds the same", async ({ page }) => {
    await page.goto("/");
    await page.getByRole("banner").getByRole("link", { name: "Find unit or page" }).click();
    await page.waitForURL("**/find");
    await page.getByRole("searchbox", { name: /^Unit, engine/ }).fill("v-104");
    await page.getByRole("button", { name: "Find" }).click();
    await expect(finding(page)).toContainText("found for “v-104”");
    await page.getByRole("region", { name: "Units" }).getByRole("link", { name: "V-104" }).click();
    await page.waitForURL("**/units/V-104");
  });
});

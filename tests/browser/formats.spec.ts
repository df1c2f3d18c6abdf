import { expect, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, test } from "./page-checks.ts";

withDemoFleet();

const banner = (page: Page) => page.getByRole("banner");
/** All texts of a part, parted by bars; a space that breaks no line reads as any other. */
const plain = async (page: Page, part = "main") => {
  const texts = await page.locator(part).evaluate((element) => {
    const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
    const found: string[] = [];
    while (walker.nextNode() !== null) found.push(walker.currentNode.nodeValue ?? "");
    return found.join("|");
  });
  return texts.replace(/[\u00a0\u202f]/g, " ");
};

/** Opens the header's menu and sets the formats named by their labels. */
async function choose(
  page: Page,
  choices: Readonly<Record<string, string | { readonly label: string }>>,
): Promise<void> {
  const menu = banner(page).getByText("Your name").first();
  await menu.click();
  for (const [label, value] of Object.entries(choices)) {
    await banner(page).getByLabel(label, { exact: true }).selectOption(value);
  }
  await banner(page).getByRole("button", { name: "Keep formats" }).click();
}

const abroad = { Pressure: "bar", Distance: "mi", Dates: { label: "09.11.2026" }, Numbers: { label: "1.010,5" } };

test("units, dates and numbers chosen in the header hold on every page, for this viewer, until they are put back", async ({
  page,
  browser,
}) => {
  test.slow();
  await page.goto("/units/H-304?measure=compression-dry");
  await expect(page.locator("main")).toContainText("kPa");
  await choose(page, abroad);
  // The table of tests tells in its column "Entered" what was entered, in the units of the tester.
  const told = page.getByRole("region", { name: "When each limit of H-304 is met" });
  await expect(told).not.toContainText("kPa");
  expect(await plain(page)).toMatch(/\d,\d\d bar\b/);
  expect(await plain(page)).toMatch(/\b\d{2}\.\d{2}\.2026\b/);
  expect(await plain(page)).toMatch(/\d\.\d{3} mi\b/);
  // The axis has round figures in the units shown: bars in tenths or whole, miles in thousands.
  const ticks = page.locator(".unit-trend .recharts-yAxis-tick-labels text");
  await expect(ticks.first()).toBeVisible();
  const levels = (await ticks.allTextContents()).map((text) => Number(text.replace(".", "").replace(",", ".")));
  expect(levels).toContain(22.5);
  for (const level of levels) expect(level).toBeLessThan(60);
  // The limit stands on the axis as well, wherever it lies.
  const round = levels.filter((level) => level !== 22.5);
  const steps = round.slice(1).map((level, i) => Math.round(1000 * Math.abs(level - (round[i] ?? 0))));
  expect(new Set(steps).size).toBe(1);
  expect((steps[0] ?? 0) % 500).toBe(0);
  await expectToFit(page);
  await expectAccessible(page);

  await page.reload();
  await expect(told).not.toContainText("kPa");
  await expect(told).toContainText("bar");
  for (const address of ["/", "/compare", "/changes", "/depots", "/settings"]) {
    await page.goto(address);
    await expect(finding(page)).toBeVisible();
    expect(`${await plain(page)} ${await plain(page, ".site-foot")}`, address).not.toMatch(
      /\d,\d{3}\b(?! (bar|mm|%))|\d km\b|\d kPa\b|\d [A-Z][a-z]{2} 2026/,
    );
  }

  // What leaves the app for other programs stays in the units that the file formats name.
  const file = await (await page.request.get("/fleet.csv")).text();
  expect(file).toMatch(/\d{4}-\d{2}-\d{2}/);
  expect(file).not.toMatch(/\d{2}\.\d{2}\.2026/);

  const other = await (await browser.newContext()).newPage();
  await other.goto(page.url().replace(/\/settings$/, "/units/H-304?measure=compression-dry"));
  await expect(other.locator("main")).toContainText("kPa");
  await other.context().close();

  await page.goto("/units/H-304?measure=compression-dry");
  await choose(page, { Pressure: "kPa", Distance: "as-recorded", Dates: "d-mon-yyyy", Numbers: "comma-point" });
  await expect(page.locator("main")).toContainText("kPa");
  await expect(page.locator("main")).toContainText(/\d [A-Z][a-z]{2} 2026/);
});

test("the formats are chosen by keys alone, rates per 1,000 as well", async ({ page }) => {
  await page.goto("/units/L-203");
  await expect(page.locator("main")).toContainText("per 10,000");
  const summary = banner(page).locator("summary").filter({ visible: true }).first();
  await summary.focus();
  await page.keyboard.press("Enter");
  const rates = banner(page).getByLabel("Rates over distance");
  for (let i = 0; i < 20 && !(await rates.evaluate((field) => field === document.activeElement)); i++) {
    await page.keyboard.press("Tab");
  }
  await expect(rates).toBeFocused();
  await page.keyboard.press("End");
  const button = banner(page).getByRole("button", { name: "Keep formats" });
  for (let i = 0; i < 10 && !(await button.evaluate((field) => field === document.activeElement)); i++) {
    await page.keyboard.press("Tab");
  }
  await page.keyboard.press("Enter");
  await expect(page.locator("main")).toContainText("per 1,000");
  await expect(page.locator("main")).not.toContainText("per 10,000");
});

import { expect, type Locator, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { finding, test } from "./page-checks.ts";

withDemoFleet();

const measures = (page: Page) => page.getByRole("navigation", { name: "Test shown" });
const cylinders = (page: Page) => page.getByRole("navigation", { name: "Cylinder shown" });
const chart = (page: Page, title: RegExp) => page.getByRole("region", { name: title });
const leakage = /^Leakage of every cylinder/;
const compression = /^Compression of every cylinder/;

/** The words of each finding that a reader must not miss; how they are put may change. */
const findings: readonly { readonly unit: string; readonly story: string; readonly says: readonly RegExp[] }[] = [
  {
    unit: "V-109",
    story: "a gasket gone between two cylinders",
    says: [/top-end repair/i, /cylinder 3, leakage .+; cylinder 2 goes with it/i, /head gasket/i],
  },
  { unit: "L-203", story: "a valve burning away", says: [/top-end repair/i, /cylinder 3/i, /exhaust valve/i] },
  {
    unit: "P-404",
    story: "low compression with normal leakage",
    says: [/top-end/i, /cylinder 6/i, /compression/i, /valve timing|clearance/i],
  },
  {
    unit: "V-106",
    story: "a test not made at top dead centre",
    says: [/cylinder 2/i, /96\s%/, /top dead centre/i, /again/i],
  },
  { unit: "H-306", story: "never tested", says: [/no test|never tested/i, /baseline/i] },
  { unit: "H-302", story: "an engine swapped in", says: [/bottom-end|nothing stands out/i, /leakage|compression/i] },
];

test("the chance that both classes of repair are due together stands beside their windows, with how it is reckoned", async ({
  page,
}) => {
  await page.goto("/units/P-401");
  const windows = page.getByRole("region", { name: "When each limit is met", exact: true });
  await expect(windows).toContainText(
    /once the top-end repair is due, the chance that a bottom-end one falls due within 18 months is 48\s%/,
  );
  await windows.getByText("How this is reckoned").click();
  await expect(windows.getByText(/What makes the one come early makes the other come early/)).toBeVisible();
});

for (const { unit, story, says } of findings) {
  test(`${unit}, ${story}: the finding says so`, async ({ page }) => {
    await page.goto(`/units/${unit}`);
    await expect(page).toHaveTitle(new RegExp(unit));
    for (const words of says) await expect(finding(page)).toHaveText(words);
  });
}

test("a unit never tested has no chart and no forecast, but a next step", async ({ page }) => {
  await page.goto("/units/H-306");
  await expect(page.getByRole("region", { name: "No chart yet" })).toContainText("No reading of H-306");
  await expect(page.getByRole("region", { name: /^Next/ })).toContainText(/baseline/i);
  await expect(page.getByRole("region", { name: "Chance of being past the limit" })).toContainText("No forecast yet");
  await expect(page.getByRole("region", { name: leakage })).toHaveCount(0);
});

test("an engine swap is marked in the chart and stands among the repairs", async ({ page }) => {
  await page.goto("/units/H-302?measure=leak-down");
  await expect(page.locator("main header")).toContainText("QD6-2950");
  await expect(
    chart(page, leakage)
      .getByText(/engine swap, 12 Nov/i)
      .first(),
  ).toBeVisible();
  const row = page.getByRole("region", { name: "Repairs of H-302" }).getByRole("row", { name: /^12 Nov 2024/ });
  await expect(row).toContainText("fitted to H-302");
});

test("the choice of test and of cylinder changes the chart and the address", async ({ page }) => {
  await page.goto("/units/V-109");
  await expect(chart(page, leakage).getByRole("img", { name: leakage })).toBeVisible();
  await expect(chart(page, compression)).toHaveCount(0);
  await expect(page.getByRole("region", { name: "Causes, cylinder 3" })).toBeVisible();

  await measures(page).getByRole("link", { name: "Compression" }).click();
  await page.waitForURL("**/units/V-109?measure=compression-dry&cylinder=3");
  await expect(chart(page, compression).getByRole("img", { name: compression })).toBeVisible();
  await expect(chart(page, leakage)).toHaveCount(0);
  await expect(measures(page).getByRole("link", { name: "Compression" })).toHaveAttribute("aria-current", "true");

  await cylinders(page).getByRole("link", { name: "Cylinder 4" }).click();
  await page.waitForURL("**/units/V-109?measure=compression-dry&cylinder=4");
  await expect(page.getByRole("region", { name: "Causes, cylinder 4" })).toBeVisible();
  await expect(cylinders(page).getByRole("link", { name: "Cylinder 4" })).toHaveAttribute("aria-current", "true");

  await page.reload();
  await expect(chart(page, compression)).toBeVisible();
  await expect(page.getByRole("region", { name: "Causes, cylinder 4" })).toBeVisible();

  const engine = page.getByRole("region", { name: "Cylinders as they stand in the engine" });
  await engine.getByRole("link", { name: /^Cylinder 1: [\d,]+\skPa, / }).click();
  await page.waitForURL("**/units/V-109?measure=compression-dry&cylinder=1");
  await expect(page.getByRole("region", { name: "Causes, cylinder 1" })).toBeVisible();
  await page.goBack();
  await expect(page.getByRole("region", { name: "Causes, cylinder 4" })).toBeVisible();
  await page.goBack();
  await page.goBack();
  await expect(chart(page, leakage)).toBeVisible();
  await expect(page.getByRole("region", { name: "Causes, cylinder 3" })).toBeVisible();
});

test("the chart's label and the cylinder's sentence tell of the cylinder chosen", async ({ page }) => {
  await page.goto("/units/L-203?measure=leak-down&cylinder=3");
  await expect(chart(page, leakage).getByRole("img", { name: leakage })).toHaveAccessibleName(/cylinder 3 22\s%/);
  const sentence = chart(page, leakage).getByRole("paragraph").filter({ hasText: "Cylinder 3." });
  await expect(sentence).toContainText(/limit of 28\s%/i);
});

test("a test that was set aside stands in the table as it was entered, with the reason", async ({ page }) => {
  await page.goto("/units/L-207");
  const tests = page.getByRole("region", { name: "Tests of L-207" });
  const row = (date: string) => tests.getByRole("row", { name: new RegExp(`^${date} [\\d,]+ Compression`) });
  await expect(row("3 Feb 2026")).toContainText(/cranked at 110\/min/i);
  await expect(row("3 Feb 2026")).toContainText("not used");
  await expect(row("3 Feb 2026")).toContainText("25.4 · 24.8 · 24.4 · 22.6 bar");
  await expect(row("3 Feb 2026")).toContainText(/tests-lowmarsh\.csv, line \d+/);
  // Its repeat nine days later counts.
  await expect(row("12 Feb 2026")).toHaveCount(1);
  await expect(row("12 Feb 2026")).not.toContainText("not used");
  await expect(finding(page)).toContainText("Nothing stands out");
});

test("causes are listed by their share, each with its class of repair and what speaks for it", async ({ page }) => {
  await page.goto("/units/V-109");
  const causes = page.getByRole("region", { name: "Causes, cylinder 3" });
  const list = causes.getByRole("list", { name: "Causes by their share" });
  const listed = await list.getByRole("listitem").allInnerTexts();
  expect(listed.length).toBeGreaterThan(1);
  expect(listed[0]).toMatch(/^Head gasket\s+top-end/);
  for (const cause of listed) expect(cause).toMatch(/top-end|bottom-end|no repair/);
  const shares = listed.map((cause) => Number(/(\d+)\s%/.exec(cause)?.[1]));
  expect(shares).toEqual([...shares].sort((a, b) => b - a));
  const sum = shares.reduce((all, share) => all + share, 0);
  // Each is rounded, and those under 1 % are only named.
  expect(sum).toBeGreaterThan(90);
  expect(sum).toBeLessThan(105);
  await expect(list.getByRole("listitem").first()).toContainText(/speaks for.*cylinder/s);
  await expect(causes.getByText(/^Taken together/)).toContainText(/top-end \d+\s%/);
});

test("the question that a unit asks stands on its page", async ({ page }) => {
  await page.goto("/units/P-402");
  await expect(page.getByRole("list", { name: "Questions to settle" })).toContainText(/repair/i);
});

test("an unknown unit is answered 404 with a page that helps on", async ({ page }) => {
  const answer = await page.goto("/units/Z-999");
  expect(answer?.status()).toBe(404);
  await expect(finding(page)).toContainText(/no unit/i);
  await expect(page.getByRole("main").getByRole("link", { name: "Import a file" })).toHaveAttribute("href", "/import");
  await page.getByRole("main").getByRole("link", { name: "Search the Fleet" }).click();
  await page.waitForURL((url) => url.pathname === "/");
  await expect(page.getByRole("searchbox")).toBeVisible();
  expect((await page.request.get("/api/units/Z-999")).status()).toBe(404);
});

/** Presses Tab until the element has the focus, as a viewer without a mouse does. */
async function tabTo(page: Page, target: Locator): Promise<void> {
  for (let presses = 0; presses < 60; presses += 1) {
    await page.keyboard.press("Tab");
    if (await target.evaluate((element) => element === document.activeElement)) return;
  }
  throw new Error("Tab does not lead there.");
}

test("the keyboard alone reaches and works the page", async ({ page }) => {
  await page.goto("/units/V-109");
  const skip = page.getByRole("link", { name: "Skip to the page" });
  await page.keyboard.press("Tab");
  await expect(skip).toBeFocused();
  await expect(skip).toBeInViewport();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("main")).toBeFocused();
  await page.keyboard.press("Tab");
  await expect(page.getByRole("navigation", { name: "Way back" }).getByRole("link", { name: "Fleet" })).toBeFocused();

  const measure = measures(page).getByRole("link", { name: "Compression" });
  await tabTo(page, measure);
  await expect(measure).not.toHaveCSS("outline-style", "none");
  await page.keyboard.press("Enter");
  await expect(chart(page, compression)).toBeVisible();
  await expect(measure).toBeFocused();

  const cylinder = cylinders(page).getByRole("link", { name: "Cylinder 3" });
  await tabTo(page, cylinder);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("region", { name: "Causes, cylinder 3" })).toBeVisible();
  await expect(cylinder).toBeFocused();

  await tabTo(page, page.getByRole("region", { name: "Tests of V-109" }));
  const figures = page.getByText("Figures by month");
  await tabTo(page, figures);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("table", { name: /^Chance of being past a limit/ })).toBeVisible();
});

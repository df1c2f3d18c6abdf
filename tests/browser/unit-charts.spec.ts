import { expect, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, test } from "./page-checks.ts";

withDemoFleet();

const sheet = (page: Page) => page.getByRole("region", { name: /^(Leakage|Compression) of every cylinder/ });
const chart = (page: Page) => page.getByRole("region", { name: /^Chart: / });
const drawing = (page: Page) => sheet(page).getByRole("img", { name: /of every cylinder/ });
const range = (page: Page) => sheet(page).getByRole("status");
const step = (page: Page, name: string) =>
  page.getByRole("navigation", { name: "Range shown" }).getByRole("link", { name, exact: true });
const tests = (page: Page) => page.getByRole("list", { name: "Tests in the chart" });
const view = (page: Page) => {
  const { searchParams } = new URL(page.url());
  return [searchParams.get("from"), searchParams.get("to")].map((end) => (end === null ? null : Number(end)));
};
/** Steps back and forth come back to the place, but for the rounding of addresses. */
const expectView = (page: Page, wanted: readonly (number | null)[]) =>
  expect
    .poll(() => view(page).every((end, i) => Math.abs((end ?? 0) - (wanted[i] ?? 0)) <= 3), `view of ${page.url()}`)
    .toBe(true);
const isZoomed = (url: URL) => url.searchParams.has("from") && url.searchParams.has("to");
const drawn = (page: Page) => expect(page.locator(".unit-trend .recharts-surface")).toBeVisible();

/** What a reader who does not see the chart is told of each story; how it is put may change. */
const stories: readonly { readonly unit: string; readonly story: string; readonly says: readonly RegExp[] }[] = [
  {
    unit: "V-104",
    story: "all cylinders worn alike",
    says: [/cylinder 1 19\s%, cylinder 2 19\s%, cylinder 3 19\s%, cylinder 4 19\s%/, /limit 30\s%/, /likely met/],
  },
  {
    unit: "L-203",
    story: "a valve burning away",
    says: [
      /cylinder 3 22\s%/,
      /limit 28\s%/,
      /likely met (in\s\w+\s\d{4}|on\s\d+\s\w+\s\d{4})/,
      /Early warning: .* cylinder 3 left its family/,
    ],
  },
  { unit: "V-109", story: "a step in two neighbours", says: [/cylinder 2 28\s%, cylinder 3 31\s%/, /past its limit/] },
  { unit: "L-207", story: "one slow cranking", says: [/cylinder 4 2,8\d\d\skPa/, /not foreseen/] },
  { unit: "V-102", story: "valves done, rings go on", says: [/20 Aug 2024: top-end repair, cylinder 4/, /16\s%/] },
  { unit: "H-302", story: "an engine swapped in", says: [/12 Nov 2024: this engine fitted to H-302/] },
];

for (const { unit, story, says } of stories) {
  test(`${unit}, ${story}: the chart says so in words`, async ({ page }) => {
    await page.goto(`/units/${unit}`);
    for (const words of says) await expect(drawing(page)).toHaveAccessibleName(words);
    await drawn(page);
  });
}

test("the test at which a cylinder left its family is marked, told in the key and in the table of tests", async ({
  page,
}) => {
  await page.goto("/units/L-203");
  await drawn(page);
  await expect(
    sheet(page).getByText("early warning: cylinder 3 left its family at the test of 10 Jul 2026"),
  ).toBeVisible();
  await expect(page.getByRole("row").filter({ hasText: "Early warning: cylinder 3 left its family" })).toHaveCount(1);
  await expect(page.getByRole("link", { name: /^Cylinder 3: .*early warning$/ })).toBeVisible();
  await expect(page.locator(".course-departure")).toHaveCount(1);
  await page.goto("/units/V-104");
  await drawn(page);
  await expect(page.getByText(/early warning/i)).toHaveCount(0);
});

test("keys zoom and move the chart, the address follows, and Back leads to the whole", async ({ page }) => {
  await page.goto("/units/L-203");
  await drawn(page);
  await chart(page).focus();
  await page.keyboard.press("+");
  await page.waitForURL(isZoomed);
  const [from = 0, to = 0] = view(page);
  await page.keyboard.press("+");
  await expect.poll(() => view(page)[0]).toBeGreaterThan(from ?? 0);
  await page.keyboard.press("-");
  await expectView(page, [from, to]);
  await page.keyboard.press("ArrowLeft");
  await expect.poll(() => view(page)[0]).toBeLessThan(from ?? 0);
  const zoomed = page.url();
  await expect(range(page)).toContainText(" to ");
  await expect(chart(page)).toBeFocused();

  await page.reload();
  await expect(range(page)).toContainText(" to ");
  expect(page.url()).toBe(zoomed);

  await page.goBack();
  await page.waitForURL((url) => !isZoomed(url));
  await expect(range(page)).toHaveText("Whole range");
  await page.goForward();
  await page.waitForURL(zoomed);
  await expect(range(page)).toContainText(" to ");

  await chart(page).focus();
  await page.keyboard.press("0");
  await page.waitForURL((url) => !isZoomed(url));
  await expect(range(page)).toHaveText("Whole range");
});

test("the view stays with another cylinder, another test and raw values", async ({ page }) => {
  await page.goto("/units/L-205?measure=compression-dry&cylinder=1&from=120000&to=180000");
  await drawn(page);
  await page.getByRole("navigation", { name: "Cylinder shown" }).getByRole("link", { name: "Cylinder 2" }).click();
  await page.waitForURL("**/units/L-205?measure=compression-dry&cylinder=2&from=120000&to=180000");
  await page.getByRole("navigation", { name: "Values shown" }).getByRole("link", { name: "Raw" }).click();
  await page.waitForURL("**/units/L-205?measure=compression-dry&cylinder=2&values=raw&from=120000&to=180000");
  await expect(range(page)).toContainText("120,000 to 180,000");
  const engine = page.getByRole("region", { name: "Cylinders as they stand in the engine" });
  await engine.getByRole("link", { name: /^Cylinder 4: / }).click();
  await page.waitForURL("**/units/L-205?measure=compression-dry&cylinder=4&values=raw&from=120000&to=180000");
});

test("buttons zoom, move and lead to the last repair; what leads no further keeps the focus", async ({ page }) => {
  await page.goto("/units/H-302");
  await drawn(page);
  await step(page, "Since the last repair").click();
  await page.waitForURL(isZoomed);
  await step(page, "Whole range").click();
  await page.waitForURL((url) => !isZoomed(url));
  await expect(step(page, "Whole range")).toBeFocused();
  await expect(step(page, "Whole range")).toHaveAttribute("aria-disabled", "true");
  await step(page, "Zoom in").click();
  await page.waitForURL(isZoomed);
  await step(page, "Zoom in").click();
  const width = () => {
    const [from, to] = view(page);
    return (to ?? 0) - (from ?? 0);
  };
  const once = width();
  await step(page, "Zoom in").click();
  await expect.poll(width).toBeLessThan(once);
  const before = view(page);
  await step(page, "Earlier").click();
  await expect.poll(() => view(page)[0]).toBeLessThan(before[0] ?? 0);
  await step(page, "Later").click();
  await expectView(page, before);
});

test("a drag moves the chart and Ctrl with the wheel zooms it; the bare wheel is the page's", async ({ page }) => {
  await page.goto("/units/L-203?from=150000&to=200000");
  await drawn(page);
  await tests(page).scrollIntoViewIfNeeded();
  const box = await tests(page).boundingBox();
  if (box === null) throw new Error("the plot has no place on the page");
  const [x, y] = [box.x + box.width / 2, box.y + box.height * 0.25];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + box.width / 5, y, { steps: 4 });
  await page.mouse.up();
  await expectView(page, [140_000, 190_000]);

  await page.keyboard.down("Control");
  await page.mouse.wheel(0, -60);
  await page.keyboard.up("Control");
  await expect
    .poll(() => {
      const [from = 0, to = 0] = view(page);
      return (to ?? 0) - (from ?? 0);
    })
    .toBeLessThan(50_000);
  const zoomed = page.url();
  const scrolled = await page.evaluate(() => window.scrollY);
  await page.mouse.wheel(0, 200);
  await expect.poll(() => page.evaluate(() => window.scrollY)).toBeGreaterThan(scrolled);
  expect(page.url()).toBe(zoomed);
});

test("on a phone two fingers zoom the chart, and a tap on a hollow point tells its reason", async ({
  browser,
  baseURL,
}) => {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    ...(baseURL ? { baseURL } : {}),
  });
  const page = await context.newPage();
  await page.goto("/units/L-207?measure=compression-dry&cylinder=4");
  await drawn(page);
  const doubted = tests(page).getByRole("button", { name: /cranked at 110\/min/i });
  await doubted.tap();
  await expect(page.locator(".trend-told")).toContainText(/kept, not used/);

  const box = await tests(page).boundingBox();
  if (box === null) throw new Error("the plot has no place on the page");
  const touch = await context.newCDPSession(page);
  const at = (...shares: number[]) =>
    shares.map((share, id) => ({ x: box.x + box.width * share, y: box.y + box.height * 0.2, id }));
  const send = (type: "touchStart" | "touchMove" | "touchEnd", touchPoints: ReturnType<typeof at>) =>
    touch.send("Input.dispatchTouchEvent", { type, touchPoints });
  await send("touchStart", at(0.4, 0.6));
  await send("touchMove", at(0.3, 0.7));
  await send("touchMove", at(0.2, 0.8));
  await send("touchEnd", []);
  await page.waitForURL(isZoomed);
  await expect(range(page)).toContainText(" to ");
  expect(await page.evaluate(() => window.visualViewport?.scale)).toBe(1);
  await expect(step(page, "Whole range")).toHaveCSS("min-height", "44px");
  await context.close();
});

test("on a phone a finger on a point is told that point's test, however near the next one stands", async ({
  browser,
  baseURL,
}) => {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    ...(baseURL ? { baseURL } : {}),
  });
  const page = await context.newPage();
  await page.goto("/units/H-304");
  await drawn(page);
  const stops = await tests(page).getByRole("button").all();
  expect(stops.length).toBeGreaterThan(4);
  for (const stop of stops.slice(-4)) {
    const when = (await stop.getAttribute("aria-label"))?.split(",")[0] ?? "nothing";
    await stop.scrollIntoViewIfNeeded();
    const box = await stop.boundingBox();
    if (box === null) throw new Error("a test has no place in the chart");
    await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
    await expect(page.locator(".trend-told p").first()).toContainText(when);
  }
  await context.close();
});

test("without script the steps are links that lead to the same view", async ({ browser, baseURL }) => {
  const context = await browser.newContext({ javaScriptEnabled: false, ...(baseURL ? { baseURL } : {}) });
  const page = await context.newPage();
  await page.goto("/units/L-203");
  await expect(page.locator("noscript p")).toContainText("The chart is drawn by script.");
  await step(page, "Zoom in").click();
  expect(isZoomed(new URL(page.url()))).toBe(true);
  await expect(range(page)).toContainText(" to ");
  await page.getByRole("navigation", { name: "Cylinder shown" }).getByRole("link", { name: "Cylinder 2" }).click();
  expect(isZoomed(new URL(page.url()))).toBe(true);
  await context.close();
});

test("the focus on a hollow point tells why it is not used, and Escape hides it", async ({ page }) => {
  await page.goto("/units/L-207?measure=compression-dry&cylinder=4");
  await drawn(page);
  const doubted = tests(page).getByRole("button", { name: /^3 Feb 2026, .*cranked at 110\/min/i });
  const last = tests(page).getByRole("button").last();
  await last.focus();
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("ArrowLeft");
  await expect(doubted).toBeFocused();
  const told = page.locator(".trend-told");
  await expect(told).toContainText("3 Feb 2026");
  await expect(told).toContainText(/kept, not used/);
  await expect(told).toContainText(/Cylinder 4: 2,261\skPa/);
  expect(isZoomed(new URL(page.url()))).toBe(false);
  await page.keyboard.press("Escape");
  await expect(told).toHaveCount(0);
  await page.keyboard.press("Home");
  await expect(tests(page).getByRole("button").first()).toBeFocused();
});

test("raw values are drawn as entered, with no limit and no forecast, and say why", async ({ page }) => {
  await page.goto("/units/L-205?measure=compression-dry&cylinder=1");
  await drawn(page);
  await expect(sheet(page).getByText("limit 2,300").first()).toBeVisible();
  await page.getByRole("navigation", { name: "Values shown" }).getByRole("link", { name: "Raw" }).click();
  await page.waitForURL("**&values=raw");
  await expect(sheet(page)).toHaveAccessibleName(/as entered$/);
  await expect(sheet(page).getByRole("paragraph").filter({ hasText: "Raw values" })).toContainText(
    /belong to referred values: limit 2,300\skPa/,
  );
  await expect(sheet(page).locator("svg").getByText("limit 2,300")).toHaveCount(0);
  // At 1,850 m the gauge showed a fifth less.
  await expect(tests(page).getByRole("button").last()).toHaveAccessibleName(/Cylinder 1: 2,2\d\d\skPa\./);
  await page.goBack();
  await expect(sheet(page)).toHaveAccessibleName(/of every cylinder, kPa$/);
});

test("ticks and words are in the viewer's units, the address in the engine's own", async ({
  page,
  context,
  baseURL,
}) => {
  await context.addCookies([
    { name: "borecast-formats", value: "psi_mi_10000_yyyy-mm-dd_space-point", url: baseURL ?? "" },
  ]);
  await page.goto("/units/L-205?measure=compression-dry&cylinder=1&from=120000&to=180000");
  await drawn(page);
  await expect(sheet(page)).toHaveAccessibleName("Compression of every cylinder, psi");
  await expect(drawing(page)).toHaveAccessibleName(/over distance, mi/);
  await expect(range(page)).toContainText(/74\s565 to 111\s847\smi/);
  await expect(tests(page).getByRole("button").last()).toHaveAccessibleName(
    /^\d{4}-\d\d-\d\d, [\d\s]+mi\. Cylinder 1: 4\d\d\.\d\spsi/,
  );
  await chart(page).focus();
  await page.keyboard.press("ArrowRight");
  await expect.poll(() => view(page)).toEqual([135_000, 195_000]);
});

test("a wet test stands beside the dry ones as evidence", async ({ page }) => {
  await page.goto("/units/P-404?measure=compression-dry&cylinder=6");
  await drawn(page);
  await expect(
    tests(page)
      .getByRole("button", { name: /Wet, cylinder 6: [\d,]+\skPa/ })
      .first(),
  ).toBeAttached();
  await expect(sheet(page).getByRole("listitem").filter({ hasText: "wet: with oil" })).toBeVisible();
});

test("an opposed engine stands as two sides, a V as two banks", async ({ page }) => {
  await page.goto("/units/A-701");
  const engine = page.getByRole("region", { name: "Cylinders as they stand in the engine" });
  await expect(engine.getByRole("list", { name: "Side of cylinders 1, 3" }).getByRole("link")).toHaveCount(2);
  await expect(engine.getByRole("list", { name: "Side of cylinders 2, 4" }).getByRole("link")).toHaveCount(2);
  await page.goto("/units/P-404");
  await expect(engine.getByRole("list", { name: "Bank of cylinders 5, 6, 7, 8" }).getByRole("link")).toHaveCount(4);
});

test("the chance of being past a limit is told at the planning lead time", async ({ page }) => {
  await page.goto("/units/L-203");
  const past = page.getByRole("region", { name: "Chance of being past the limit" });
  await expect(past.getByRole("img", { name: /^Chance/ })).toHaveAccessibleName(
    /lead time, by 31 Aug 2027: top-end \d+\s%/,
  );
  await expect(past.getByRole("paragraph").filter({ hasText: "lead time" })).toContainText(/one to plan, from 10\s%/);
});

test("charts broken down, zoomed, told of and raw fit every screen and break no rule", async ({ page }) => {
  test.slow();
  await page.goto("/units/L-207?measure=compression-dry&cylinder=4&from=150000&to=215000");
  await drawn(page);
  await tests(page).getByRole("button").last().focus();
  await expectToFit(page);
  await expectAccessible(page);
  await page.goto("/units/A-702?measure=leak-down&cylinder=1&values=raw");
  await drawn(page);
  await expectToFit(page);
  await expectAccessible(page);
});

import { expect } from "@playwright/test";
import { places } from "@/app/_ui/shell/places.ts";
import { emptyStore, withDemoFleet, withEmptyStore } from "./demo-fleet.ts";
import { expectToFit, finding, giveName, test } from "./page-checks.ts";

test.describe("with the demo fleet", () => {
  withDemoFleet();

  test("the header names every place at its widths, the menu on small screens, and marks where one is", async ({
    page,
  }) => {
    const banner = page.getByRole("banner");
    for (const width of [1440, 1080, 390]) {
      await page.setViewportSize({ width, height: 900 });
      await page.goto("/depots");
      if (width === 390) await banner.getByText("Menu").click();
      const links = banner.getByRole("navigation", { name: "Pages" }).getByRole("link");
      await expect(links).toHaveText(places.map(({ title }) => title));
      await expect(banner.getByRole("link", { name: "Depots" })).toHaveAttribute("aria-current", "page");
      await expect(banner.locator("[aria-current]:visible")).toHaveCount(1);
    }
  });

  test("the next page shows as grey bars while it is awaited, and the frame stays", async ({ page }) => {
    await page.goto("/");
    let letGo = () => {};
    const held = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    await page.route("**/depots?_rsc=*", async (route) => {
      await held;
      await route.continue();
    });
    const bars = page.locator(".page-wait");
    await expect(bars).toBeHidden();
    await expect(async () => {
      if (!(await bars.isVisible())) await page.getByRole("banner").getByRole("link", { name: "Depots" }).click();
      await expect(bars).toBeVisible({ timeout: 1000 });
    }).toPass();
    await expect(bars).toHaveCSS("opacity", "1");
    await expect(page.getByRole("banner")).toBeVisible();
    letGo();
    await page.waitForURL("**/depots");
    await expect(bars).toBeHidden();
    await expect(finding(page)).toContainText("depot");
  });

  test("a word of the trade opens its line by keys, which leads to all words", async ({ page }) => {
    await page.goto("/");
    const word = page.getByRole("button", { name: "top-end" }).first();
    await expect(async () => {
      await word.focus();
      await page.keyboard.press("Enter");
      await expect(page.getByText("Work on the head")).toBeVisible({ timeout: 1000 });
    }).toPass();
    await page.getByRole("dialog").getByRole("link", { name: "All words" }).click();
    await page.waitForURL("**/words#top-end");
    await expect(page.locator("#top-end")).toContainText("Work on the head");
  });
});

test.describe("with an empty store", () => {
  withEmptyStore();

  test("the first steps offer a sample of every kind of file, and each comes down", async ({ page, request }) => {
    await page.goto("/");
    const samples = page.getByRole("main").locator("a[download]");
    await expect(samples).toHaveCount(9);
    for (const link of await samples.all()) {
      const answer = await request.get((await link.getAttribute("href")) ?? "");
      expect(answer.status()).toBe(200);
    }
    await expectToFit(page);
  });

  test("the first step is done once engine models are in", async ({ page, request }) => {
    await giveName(page);
    await page.locator("main input[type=file]").setInputFiles("public/samples/engine-models.json");
    await page.waitForURL(/\/import\/.+/);
    await page.getByRole("button", { name: "Commit" }).click();
    await expect(page.getByText(/^Committed on /)).toBeVisible();
    const step = (title: string) => page.getByRole("main").getByRole("listitem").filter({ hasText: title });
    for (const address of ["/", "/import"]) {
      await page.goto(address);
      await expect(step("Get the engine models").getByText("done", { exact: true })).toBeVisible();
      await expect(step("Get the tests").getByText("done", { exact: true })).toHaveCount(0);
    }
    await expect(finding(page)).toContainText("Engine models are known");
    await emptyStore(request);
  });
});

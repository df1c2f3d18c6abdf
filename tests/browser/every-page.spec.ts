import { expect } from "@playwright/test";
import { emptyStore, loadDemoFleet, standingImports, withDemoFleet, withEmptyStore } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";
import { lookAtEmptyPages, lookAtFullPages } from "./page-looks.ts";

// Each page is looked at in many widths, and in two themes.
test.slow();

test.describe("with an empty store", () => {
  withEmptyStore();
  lookAtEmptyPages();
});

test.describe("with the demo fleet", () => {
  withDemoFleet();
  lookAtFullPages("others");

  test("an import's page, its question before it is undone, and its page afterwards", async ({ page, request }) => {
    await giveName(page);
    const [id] = await standingImports(request);
    await page.goto(`/import/${id}`);
    await expect(finding(page)).toContainText("units were assessed");
    await expectToFit(page);
    await expectAccessible(page);
    await page.getByRole("button", { name: "Undo this import" }).click();
    await expect(page.getByRole("dialog")).toBeVisible();
    await expectToFit(page);
    await expectAccessible(page);
    await page.keyboard.press("Escape");
    await expect(page.getByRole("dialog")).toBeHidden();

    await emptyStore(request);
    await page.reload();
    await expect(finding(page)).toContainText("count no more");
    await expectToFit(page);
    await expectAccessible(page);
    await loadDemoFleet(request);
  });

  test("what a phone alone draws breaks no rule of colours in the dark", async ({ page }) => {
    await page.setViewportSize({ width: 390, height: 900 });
    await page.emulateMedia({ colorScheme: "dark" });
    for (const address of ["/", "/changes", "/units/V-109", "/depots", "/import", "/round", "/units/V-104/test"]) {
      await page.goto(address);
      await expect(finding(page)).toBeVisible();
      await page.getByRole("banner").getByText("Menu", { exact: true }).click();
      await expectAccessible(page);
    }
  });

  test("what opens on a page breaks no rule either", async ({ page }) => {
    await page.goto("/?band=overdue");
    await page.getByRole("button", { name: "bottom-end" }).click();
    await expect(page.getByText("Work on rings")).toBeVisible();
    await expectAccessible(page);
    await page.keyboard.press("Escape");
    await expect(page.getByText("Work on rings")).toBeHidden();
    await page.getByText("Columns", { exact: true }).click();
    await expect(page.getByRole("checkbox", { name: "Band" })).toBeVisible();
    await expectAccessible(page);

    await page.goto("/units/Z-999");
    await page.getByRole("banner").getByText("Your name").first().click();
    await expect(page.getByRole("banner").getByRole("textbox", { name: "Your name" })).toBeVisible();
    await expectToFit(page);
    await expectAccessible(page);

    await page.goto("/units/M-602");
    await page.getByText("Figures by month").click();
    await expect(page.getByRole("table", { name: /^Chance of being past a limit/ })).toBeVisible();
    await expectToFit(page);
    await expectAccessible(page);

    await giveName(page);
    for (const kind of await page.getByRole("region", { name: "What a file may hold" }).getByRole("group").all()) {
      await kind.click({ position: { x: 10, y: 10 } });
    }
    await expectToFit(page);
    await expectAccessible(page);
  });

  test("one cell that is too faint is found among all that are drawn like it", async ({ page }) => {
    await page.goto("/");
    await expectAccessible(page);
    const cell = page.locator("main tbody td.col-use").nth(7);
    await cell.evaluate((element) => element.setAttribute("style", "color: #bbb"));
    await expect(expectAccessible(page)).rejects.toThrow("color-contrast");
  });

  test("further views fit every screen", async ({ page }) => {
    for (const address of [
      "/?page=2&sort=unit&order=down&years=1",
      "/?band=question&years=5",
      "/units/H-302?measure=compression-dry&cylinder=6",
      "/units/L-207",
    ]) {
      await page.goto(address);
      await expectToFit(page);
    }
  });

  test("the appearance chosen holds on the next page and after a reload, whatever the system says", async ({
    page,
  }) => {
    await page.emulateMedia({ colorScheme: "light" });
    await page.goto("/");
    const html = page.locator("html");
    await expect(html).toHaveAttribute("data-mantine-color-scheme", "light");
    const background = () => page.locator("body").evaluate((body) => getComputedStyle(body).backgroundColor);
    const light = await background();
    await page.getByRole("banner").getByText("Your name").first().click();
    await page.getByRole("banner").getByText("Dark").click();
    await expect(html).toHaveAttribute("data-mantine-color-scheme", "dark");
    expect(await background()).not.toBe(light);
    await page.goto("/units/V-109");
    await expect(html).toHaveAttribute("data-mantine-color-scheme", "dark");
    await page.getByRole("banner").getByText("Your name").first().click();
    await page.getByRole("banner").getByText("As the system").click();
    await expect(html).toHaveAttribute("data-mantine-color-scheme", "light");
  });
});

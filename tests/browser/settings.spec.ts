import { expect, type Page } from "@playwright/test";
import { assessedUnits, withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
// States are looked at in two themes and two widths.
test.slow();
withDemoFleet();

const ask = (page: Page) => page.getByRole("button", { name: "See what it changes" }).click();
const putInForce = (page: Page) => page.getByRole("button", { name: "Put it in force" });
const slowly = { timeout: 60_000 };

test("a longer lead time names the units that it moves, moves them, and is put back", async ({ page, request }) => {
  const bandOf = async (unit: string) =>
    (await assessedUnits(request)).find((assessed) => assessed.unit === unit)?.band ?? null;
  await giveName(page);
  await page.goto("/settings");
  await expect(finding(page)).toContainText("within 12 months");
  await page.getByLabel("Planning lead time, months").fill("36");
  await ask(page);
  await expect(putInForce(page)).toBeVisible(slowly);
  await expect(page.getByRole("region", { name: /would change/ })).toContainText("Planning lead time: 12 months");
  const first = page.getByRole("list", { name: "Units that change their band" }).getByRole("listitem").first();
  const unit = (await first.getByRole("link").textContent()) ?? "";
  const before = await bandOf(unit);
  await expectToFit(page);
  await expectAccessible(page);
  // Looking changes nothing.
  await expect(finding(page)).toContainText("within 12 months");

  await putInForce(page).click();
  await expect(page.getByText("In force.", { exact: true })).toBeVisible(slowly);
  await expect(finding(page)).toContainText("within 36 months");
  const after = await bandOf(unit);
  expect(after).not.toBe(before);
  await page.goto(`/?search=${unit}&band=${after}`);
  await expect(page.getByRole("link", { name: unit }).first()).toBeVisible();

  await page.goto("/settings");
  const history = page.getByRole("region", { name: "Changes of settings" });
  await expect(history.getByRole("row").nth(1)).toContainText("R. Ames");
  await expect(history.getByRole("row").nth(1)).toContainText("12 months");
  await history
    .getByRole("link", { name: /^Put back Planning lead time/ })
    .first()
    .click();
  await expect(page.getByText(/filled in as it was before: 12 months/)).toBeVisible();
  await expect(page.getByLabel("Planning lead time, months")).toHaveValue("12");
  await expectAccessible(page);
  await ask(page);
  await expect(putInForce(page)).toBeVisible(slowly);
  await putInForce(page).click();
  await expect(finding(page)).toContainText("within 12 months", slowly);
  expect(await bandOf(unit)).toBe(before);
});

test("a value that cannot be is refused with the reason beside its field", async ({ page }) => {
  await giveName(page);
  await page.goto("/settings");
  await page.getByLabel("Chance for plan, %").fill("5");
  await page.getByLabel("Time zone").fill("Atlantis/Port");
  await ask(page);
  await expect(page.getByText(/at least that for watch/)).toBeVisible();
  await expect(page.getByText(/choose one of the list/)).toBeVisible();
  await expect(page.getByLabel("Chance for plan, %")).toHaveAttribute("aria-invalid", "true");
  await expect(page.getByRole("alert").filter({ hasText: "2 fields are not taken" })).toBeVisible();
  await expect(page.getByLabel("Time zone")).toBeFocused();
  await expectToFit(page);
  await expectAccessible(page);
});

test("the fleet's name is in force at once, and who is second is told of the first", async ({ page, browser }) => {
  const other = await (await browser.newContext()).newPage();
  await giveName(page);
  await other.goto(page.url());
  await other.locator("main").getByLabel("Your name").fill("B. Clerk");
  await other.locator("main").getByRole("button", { name: "Keep name" }).click();
  await expect(other.getByText("or drop them here")).toBeVisible();
  await page.goto("/settings");
  await other.goto(page.url());
  const name = (of: Page) => of.getByLabel("Name", { exact: true });
  await name(other).fill("Harbour Works");
  await ask(other);
  await expect(other.getByRole("banner")).toContainText("Harbour Works", slowly);

  await page.getByLabel("By the calendar, days").fill("365");
  await ask(page);
  await expect(page.getByText("B. Clerk changed this while you wrote; nothing was saved over it.")).toBeVisible();
  await expect(name(page)).toHaveValue("Harbour Works");
  await expect(page.getByLabel("By the calendar, days")).toHaveValue("365");
  await expectAccessible(page);
  await ask(page);
  await expect(putInForce(page)).toBeVisible(slowly);
  await page.getByRole("button", { name: "Leave it as it is" }).click();
  await expect(page.getByLabel("By the calendar, days")).toHaveValue("");

  await page
    .getByRole("link", { name: /^Put back Fleet’s name: Quillmere/ })
    .first()
    .click();
  await expect(name(page)).toHaveValue("Quillmere District Works");
  await ask(page);
  await expect(page.getByRole("banner")).toContainText("Quillmere District Works", slowly);
  await other.context().close();
});

test("what was looked at is put in force, never with a field that was changed since", async ({ page }) => {
  await giveName(page);
  await page.goto("/settings");
  const lead = page.getByLabel("Planning lead time, months");
  let letThrough = () => {};
  const held = new Promise<void>((resolve) => {
    letThrough = resolve;
  });
  await page.route("**/settings", async (route) => {
    if (route.request().method() === "POST") await held;
    await route.continue();
  });
  await lead.fill("24");
  await ask(page);
  await lead.fill("30");
  letThrough();
  await expect(page.getByRole("button", { name: "See what it changes" })).toBeEnabled(slowly);
  await expect(putInForce(page)).toHaveCount(0);
  await ask(page);
  await expect(page.getByText("Planning lead time: 12 months")).toContainText("30 months", slowly);
  await page.getByRole("button", { name: "Leave it as it is" }).click();
  await expect(lead).toHaveValue("12");
});

test("a double press puts in force once and tells of it once", async ({ page }) => {
  await giveName(page);
  await page.goto("/settings");
  const lead = page.getByLabel("Planning lead time, months");
  const change = async (months: string) => {
    await lead.fill(months);
    await ask(page);
    await expect(putInForce(page)).toBeVisible(slowly);
    await putInForce(page).dblclick();
    await expect(page.getByText("In force.", { exact: true })).toBeVisible(slowly);
    await expect(page.getByText(/nothing was saved/)).toHaveCount(0);
    await expect(finding(page)).toContainText(`within ${months} months`);
  };
  await change("13");
  await change("12");
});

test("where the server cannot be reached that is told, and what was typed stands", async ({ page, context }) => {
  await giveName(page);
  await page.goto("/settings");
  const lead = page.getByLabel("Planning lead time, months");
  await lead.fill("24");
  await context.setOffline(true);
  await ask(page);
  await expect(page.getByText("The server cannot be reached. What you typed stands here")).toBeVisible();
  await expect(lead).toHaveValue("24");
  await expectAccessible(page);
  await context.setOffline(false);
  await ask(page);
  await expect(putInForce(page)).toBeVisible(slowly);
});

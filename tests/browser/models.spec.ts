import { expect, type Page } from "@playwright/test";
import type { UnitAssessment } from "@/lib/schema/assessment.ts";
import { assessedUnits, withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
test.slow();
withDemoFleet();

const model = "petrol-4-a";
const ask = (page: Page) => page.getByRole("button", { name: "See what would change" }).click();
/** The limits of all leakage, not those for valves. */
const limit = (page: Page, name: string) =>
  page.getByRole("group", { name: "Leak-down limits" }).getByLabel(name, { exact: true });
const bandsOf = (units: readonly UnitAssessment[]) =>
  new Map(units.filter(({ engineModel }) => engineModel === model).map(({ unit, band }) => [unit, band]));

test("a changed limit names the units that would move, moves them when it is kept, and its undo brings them back", async ({
  page,
  request,
}) => {
  await giveName(page);
  const before = bandsOf(await assessedUnits(request));
  await page.goto(`/models/${model}`);
  await page.getByRole("link", { name: "Change it" }).click();
  await limit(page, "Watch, %").fill("3");
  await limit(page, "Plan, %").fill("5");
  await limit(page, "Limit, %").fill("6");
  await ask(page);
  const sheet = page.getByRole("region", { name: /units? would change/ });
  await expect(sheet).toBeVisible();
  const named = await sheet.locator(".band-changes li > a").allTextContents();
  expect(named.length).toBeGreaterThan(0);
  await expectToFit(page);
  await expectAccessible(page);
  expect(bandsOf(await assessedUnits(request))).toEqual(before);

  await sheet.getByRole("button", { name: "Keep the change" }).click();
  await expect(page.getByText(/^Kept\./)).toBeVisible();
  await expect(finding(page)).toContainText("leakage up to 6");
  const after = bandsOf(await assessedUnits(request));
  expect(
    [...after]
      .filter(([unit, band]) => before.get(unit) !== band)
      .map(([unit]) => unit)
      .sort(),
  ).toEqual(named.sort());
  const [moved = ""] = named;
  await page.goto(`/?model=${model}&search=${moved}`);
  await expect(page.getByRole("row", { name: new RegExp(moved) })).toContainText("past limit");

  await page.goto(`/models/${model}`);
  await expect(page.getByRole("row", { name: /R\. Ames/ }).first()).toContainText("leakage, limit, %: 30");
  await page.getByRole("button", { name: "Undo this change" }).click();
  await expectAccessible(page);
  await page.getByRole("button", { name: "Undo it" }).click();
  await expect(page.getByText("Undone by R. Ames").first()).toBeVisible();
  await expect(finding(page)).toContainText("leakage up to 30");
  expect(bandsOf(await assessedUnits(request))).toEqual(before);
});

test("the gaps of the sketch and the list of pairs are one, and work by keyboard", async ({ page }) => {
  await giveName(page);
  await page.goto(`/models/${model}/edit`);
  const gap = page.getByRole("button", { name: "Gasket bridge of cylinders 2 and 3" });
  const pair = page.getByRole("checkbox", { name: "2 and 3" });
  await expect(gap).toHaveAttribute("aria-pressed", "true");
  await expect(gap).toBeEnabled();
  await gap.focus();
  await page.keyboard.press("Space");
  await expect(gap).toHaveAttribute("aria-pressed", "false");
  await expect(pair).not.toBeChecked();
  await page.keyboard.press("Tab");
  await expect(page.getByRole("button", { name: "Gasket bridge of cylinders 3 and 4" })).toBeFocused();
  await pair.focus();
  await page.keyboard.press("Space");
  await expect(gap).toHaveAttribute("aria-pressed", "true");
  await page.getByLabel("Cylinders", { exact: true }).fill("2");
  await expect(gap).toBeHidden();
});

test("what is not taken has its reason beside it, keeps what was typed, and a new model is added and retired", async ({
  page,
}) => {
  await giveName(page);
  await page.goto("/models/new");
  await page.getByLabel("Id", { exact: true }).fill(model);
  await page.getByLabel("Cylinders", { exact: true }).fill("6");
  await limit(page, "Watch, %").fill("ten");
  await limit(page, "Plan, %").fill("20");
  await limit(page, "Limit, %").fill("30");
  await ask(page);
  await expect(page.getByText("One field is not taken")).toBeVisible();
  await expect(limit(page, "Watch, %")).toBeFocused();
  await expect(limit(page, "Watch, %")).toHaveAccessibleDescription(/Must be a number\./);
  await expect(limit(page, "Watch, %")).toHaveValue("ten");
  await expectToFit(page);
  await expectAccessible(page);
  await limit(page, "Watch, %").fill("10");
  await ask(page);
  await expect(page.getByLabel("Id", { exact: true })).toHaveAccessibleDescription(/of this id already/);
  await page.getByLabel("Id", { exact: true }).fill("own-6");
  await page.getByLabel("Layout").selectOption("v");
  await ask(page);
  await page.getByRole("button", { name: "Add it" }).click();
  await expect(finding(page)).toContainText("compression is not judged");

  await page.getByRole("button", { name: "Retire it" }).click();
  await expect(page.getByRole("dialog")).toContainText("No unit has it.");
  await page.getByRole("dialog").getByRole("button", { name: "Retire it" }).click();
  await expect(page.getByRole("button", { name: "Take back into use" })).toBeVisible();
  await page.goto("/models");
  await expect(page.getByRole("link", { name: "own-6", exact: true })).toBeHidden();
  await page.getByText("1 model", { exact: true }).click();
  await expect(page.getByRole("link", { name: "own-6", exact: true })).toBeVisible();
  await expectToFit(page);
  await expectAccessible(page);
});

test("the models in force can be downloaded as the file that brings them in", async ({ request }) => {
  const file = (await (await request.get("/models.json")).json()) as {
    schemaVersion: number;
    engineModels: { id: string }[];
  };
  expect(file.schemaVersion).toBe(1);
  expect(file.engineModels.map(({ id }) => id)).toContain(model);
});

import { expect } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
test.slow();
withDemoFleet();

test("what speaks for a cause and what against it stand apart, and what to test next says what it would settle", async ({
  page,
}) => {
  await page.goto("/units/V-109?measure=leak-down&cylinder=3");
  const causes = page.getByRole("region", { name: "Causes, cylinder 3" });
  await expect(causes.getByText("speaks for", { exact: true }).first()).toBeVisible();
  await expect(causes.getByRole("listitem").filter({ hasText: "combustion gas" })).toContainText(
    /expected to settle .+ of what is open, in some [\d.]+\sh/,
  );
  const coolant = page.getByRole("listitem").filter({ hasText: "Test the coolant for combustion gas" });
  await expect(coolant.first()).toContainText(/Expected to settle/);
  // The word opens its figure in both places: next in order, and beside the causes.
  await expect(coolant).toHaveCount(2);
  for (const step of await coolant.all()) {
    await step.getByText(/^What it settles, in figures: \d+\s%$/).click();
    await expect(step.getByText(/^Open now: [\d.]+ bits, [\d.]+ of the cause/)).toBeVisible();
    await expect(step.getByRole("row").nth(1)).toContainText(/^combustion-gas test: fault/);
  }
});

test("calls stand beside what was found, each case leads to its unit", async ({ page }) => {
  await page.goto("/models/petrol-4-a");
  await page.getByRole("link", { name: "How often its calls were right" }).click();
  await expect(finding(page)).toContainText(/2 cylinders were opened; .+ 2 of 2 right/);
  await expectToFit(page);
  await expectAccessible(page);
  const row = page.getByRole("row", { name: /V-102/ });
  await expect(row).toContainText("exhaust valve or seat");
  await row.getByRole("link", { name: "V-102" }).click();
  await expect(page).toHaveURL(/\/units\/V-102/);
});

test("on a phone cases and evidence stand as lists, and a table that runs over the edge is in shadow there", async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  const beyond = (name: string | RegExp) =>
    page
      .getByRole("region", { name })
      .first()
      .evaluate((box) => box.scrollWidth - box.clientWidth);
  await page.goto("/causes/calls");
  expect(await beyond("Cylinders that were opened")).toBe(0);
  const case_ = page.getByRole("row", { name: /V-102/ });
  await expect(case_.getByRole("cell")).toHaveCount(6);
  await case_.getByRole("cell").last().scrollIntoViewIfNeeded();
  await expect(case_.getByRole("cell").last()).toBeInViewport({ ratio: 1 });
  await page.goto("/models/petrol-4-a/evidence");
  expect(await beyond(/^Findings: /)).toBe(0);
  await page.goto("/units/V-104");
  expect(await beyond(/^When each limit of V-104/)).toBeGreaterThan(0);
  const shade = page.getByRole("region", { name: /^When each limit of V-104/ });
  expect(await shade.evaluate((box) => getComputedStyle(box).backgroundAttachment)).toBe(
    "local, local, scroll, scroll",
  );
});

test("a model's own likelihood is foreseen, kept with a reason, told in its versions and undone", async ({ page }) => {
  await giveName(page);
  await page.goto("/models/petrol-4-a/evidence");
  await page.getByLabel("Finding", { exact: true }).selectOption("heard-neighbour");
  const field = (name: string) =>
    page.getByRole("group", { name: /^How often it is seen/ }).getByRole("textbox", { name, exact: true });
  await field("Head gasket").fill("often");
  await field("Reason").fill("siamesed exhaust ports");
  const ask = page.getByRole("button", { name: "See what would change" });
  await ask.click();
  await expect(field("Head gasket")).toBeFocused();
  await expect(field("Head gasket")).toHaveAccessibleDescription(/Must be a number\./);
  await field("Head gasket").fill("2");
  await field("Exhaust valve or seat").fill("90");
  await ask.click();
  await page.getByRole("button", { name: "Keep the change" }).click();
  await expect(page.getByText(/^Kept\./)).toBeVisible();
  await expect(finding(page)).toContainText(/1 of \d+ findings has a value/);
  await expect(page.getByText("This model: siamesed exhaust ports")).toBeVisible();
  await expectToFit(page);
  await expectAccessible(page);

  await page.goto("/models/petrol-4-a");
  await expect(page.getByRole("row", { name: /R\. Ames/ }).first()).toContainText(
    "finding “air heard at the next cylinder”: head gasket",
  );
  await page.getByRole("button", { name: "Undo this change" }).click();
  await page.getByRole("button", { name: "Undo it" }).click();
  await expect(page.getByText("Undone by R. Ames").first()).toBeVisible();
  await page.goto("/models/petrol-4-a/evidence");
  await expect(finding(page)).toContainText(/none of \d+ findings/);
});

test("a model's own shares of the causes are foreseen, kept with a reason, told in its versions and undone", async ({
  page,
}) => {
  await giveName(page);
  await page.goto("/models/petrol-4-a/evidence");
  const field = (name: string) =>
    page.getByRole("group", { name: /before anything is seen$/ }).getByRole("textbox", { name, exact: true });
  await field("Head gasket").fill("80");
  await field("Piston").fill("40");
  await field("Reason").fill("long head studs");
  const ask = page.getByRole("button", { name: "See what would change" });
  await ask.click();
  await expect(page.getByText("Together they must come to at most 99 %")).toBeVisible();
  await field("Head gasket").fill("30");
  await field("Piston").fill("");
  await ask.click();
  await page.getByRole("button", { name: "Keep the change" }).click();
  await expect(page.getByText(/^Kept\./)).toBeVisible();
  await expect(finding(page)).toContainText("its causes shares of their own");
  await expect(page.getByText("This model: long head studs")).toBeVisible();
  await expect(field("Head gasket")).toHaveValue("30");
  await expectToFit(page);
  await expectAccessible(page);

  await page.goto("/models/petrol-4-a");
  await expect(page.getByRole("row", { name: /R\. Ames/ }).first()).toContainText(
    "before anything is seen: head gasket",
  );
  await page.getByRole("button", { name: "Undo this change" }).click();
  await page.getByRole("button", { name: "Undo it" }).click();
  await expect(page.getByText("Undone by R. Ames").first()).toBeVisible();
  await page.goto("/models/petrol-4-a/evidence");
  await expect(finding(page)).not.toContainText("shares of their own");
});

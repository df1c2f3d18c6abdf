import { expect, type Page } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, openPlan, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
test.slow();
withDemoFleet();

const slowly = { timeout: 60_000 };
const bar = (page: Page, unit: string) => page.getByRole("link", { name: new RegExp(`^${unit}, .*Choose`) });
const weekOf = async (page: Page, unit: string): Promise<number> => {
  const says = (await bar(page, unit).getAttribute("aria-label")) ?? "";
  return Number(/week\s(\d+)/.exec(says)?.[1]);
};
const chosen = (page: Page, unit: string) => page.getByRole("region", { name: new RegExp(`^${unit}: `) });

/** Makes the plan anew, and waits until it is there. */
async function replan(page: Page): Promise<void> {
  const made = page.getByText(/^Plan as of .* made /);
  const before = await made.textContent();
  await page.getByRole("button", { name: /^Replan/ }).click();
  await expect(page.getByRole("button", { name: /^Replan/ })).toBeVisible(slowly);
  await expect(made).not.toHaveText(before ?? "", slowly);
}

test("the plan puts two units before the weeks in which their depot is closed, in turn", async ({ page }) => {
  await giveName(page);
  await openPlan(page, "/plan");
  // A plan as a person had it made: nothing that a test before this one chose.
  await replan(page);
  const weeks = [await weekOf(page, "H-301"), await weekOf(page, "H-304")];
  // Closed from week 46 on; the one bay takes one after the other.
  for (const week of weeks) expect(week).toBeLessThan(46);
  expect(weeks[0]).not.toBe(weeks[1]);
  await expect(finding(page)).toContainText(/H-30[14] and H-30[14] would both fall due while Highcol is closed/);
  await expect(finding(page)).toContainText(/gives away .* of unused life and avoids .* of risk/);
});

test("a booking is moved by keys, its cost told first, pinned, planned around and given back", async ({ page }) => {
  await giveName(page);
  await openPlan(page, "/plan");
  const before = await weekOf(page, "L-203");
  await bar(page, "L-203").focus();
  await page.keyboard.press("ArrowRight");
  await expect(page).toHaveURL(/unit=L-203.*to=/);
  await expect(bar(page, "L-203")).toHaveAccessibleName(new RegExp(`week.${before + 1},`));
  await page.keyboard.press("ArrowRight");
  await expect(bar(page, "L-203")).toHaveAccessibleName(new RegExp(`week.${before + 2},`));
  const says = chosen(page, "L-203").getByRole("status");
  await expect(says).toContainText(/It (costs .* more|saves .*|costs the same) in all/);
  await expectToFit(page);
  await expectAccessible(page);
  // Nothing is kept before it is taken.
  await openPlan(page, "/plan");
  expect(await weekOf(page, "L-203")).toBe(before);
  await bar(page, "L-203").focus();
  await page.keyboard.press("ArrowRight");
  await expect(bar(page, "L-203")).toHaveAccessibleName(new RegExp(`week.${before + 1},`));
  await page.keyboard.press("ArrowRight");
  await expect(bar(page, "L-203")).toHaveAccessibleName(new RegExp(`week.${before + 2},`));
  await page.getByRole("button", { name: "Take the move" }).click();
  await expect(bar(page, "L-203")).toHaveAccessibleName(/pinned/);
  await expect(page.getByText("One unit stands otherwise than it was made")).toBeVisible();
  await replan(page);
  expect(await weekOf(page, "L-203")).toBe(before + 2);
  await expect(page.getByText("One unit stands otherwise")).toHaveCount(0);
  await page.goto("/plan/compare");
  await expect(finding(page)).toContainText("One repair has moved.");
  await expect(page.getByRole("row", { name: /L-203/ })).toContainText("pinned");
  await openPlan(page, "/plan?unit=L-203");
  await page.getByRole("button", { name: "Let the plan decide again" }).click();
  await expect(bar(page, "L-203")).not.toHaveAccessibleName(/pinned/);
  await replan(page);
  expect(await weekOf(page, "L-203")).toBe(before);
});

test("a booking is dragged to another week, and says where there is no room", async ({ page }) => {
  await giveName(page);
  await page.setViewportSize({ width: 1440, height: 900 });
  await openPlan(page, "/plan");
  const [from, to] = [await bar(page, "H-304").boundingBox(), await bar(page, "H-301").boundingBox()];
  if (from === null || to === null) throw new Error("the bars are not drawn");
  const y = from.y + from.height / 2;
  await page.mouse.move(from.x + 6, y);
  await page.mouse.down();
  await page.mouse.move(from.x + 20, y, { steps: 4 });
  await page.mouse.move(to.x + 6, y, { steps: 8 });
  await page.mouse.up();
  await expect(page).toHaveURL(/unit=H-304.*to=/);
  const says = chosen(page, "H-304").getByRole("status");
  await expect(says).toContainText("Highcol is");
  await expect(says).toContainText("over in week");
  await page.getByRole("link", { name: "Leave it as it is" }).click();
  await expect(page).not.toHaveURL(/to=/);
});

test("a booking is dropped at the cost told, and booked again from what waits", async ({ page }) => {
  await giveName(page);
  await openPlan(page, "/plan?unit=L-203");
  const drop = page.getByRole("button", { name: /^Drop it \(costs .* more\)$/ });
  await drop.click();
  await expect(bar(page, "L-203")).toHaveCount(0);
  await page.getByLabel("Look at another week").selectOption({ index: 4 });
  await page.getByRole("button", { name: "Book it there" }).click();
  await expect(bar(page, "L-203")).toHaveAccessibleName(/pinned/);
  await page.getByRole("button", { name: "Let the plan decide again" }).click();
  await expect(bar(page, "L-203")).not.toHaveAccessibleName(/pinned/);
});

test("whether a unit can wait is drawn and told, on a phone as well", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 800 });
  await openPlan(page, "/plan");
  await page
    .getByRole("link", { name: /^H-304/ })
    .first()
    .click();
  const wait = page.getByRole("region", { name: "Can H-304 wait?" });
  await expect(wait).toBeVisible();
  const rows = wait.getByRole("row");
  await expect(rows.nth(1)).toContainText("Not booked");
  await expect(rows.nth(2)).toContainText("week");
  expect(await rows.count()).toBeGreaterThan(3);
  await expectToFit(page);
});

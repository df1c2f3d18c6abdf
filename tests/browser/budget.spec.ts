import { expect, type Page } from "@playwright/test";
import { importFiles, withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, openBudget, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
test.slow();
withDemoFleet();

const slowly = { timeout: 85_000 };
const bridge = (page: Page) => page.getByRole("list", { name: "The bridge, P50" });
const figureOf = (text: string | null): number => Number((text ?? "").replace("−", "-").replace(/[^\d.-]/g, ""));

/** The amounts of the bridge as they are shown: where it begins, its steps, where it ends. */
async function amounts(page: Page): Promise<readonly number[]> {
  return (await bridge(page).locator("strong").allTextContents()).map(figureOf);
}

test("the budget says what to hold, opens to units, and is frozen under a name once", async ({ page }) => {
  await giveName(page);
  await page.goto("/");
  await page.getByRole("banner").getByRole("link", { name: "Budget" }).click();
  await openBudget(page);
  await expect(finding(page)).toContainText("the chance of staying within is 80");
  await page.getByRole("button", { name: "Highcol" }).click();
  const where = page.getByRole("region", { name: "Where it goes" }).first();
  await expect(where.getByRole("link").first()).toBeVisible();
  // Of two files side by side each is named.
  await expect(page.getByRole("link", { name: "Download CSV of units" })).toHaveText("Download CSV of units");

  await page.getByLabel("Freeze this budget under a name").fill("Board");
  await page.getByRole("button", { name: "Freeze this budget" }).click();
  await expect(page.getByText("Frozen as “Board”.")).toBeVisible();
  await expect(finding(page)).toContainText("That is as much as the budget “Board”", slowly);
  await page.getByLabel("Freeze this budget under a name").fill("board");
  await page.getByRole("button", { name: "Freeze this budget" }).click();
  await expect(page.getByText("A frozen budget has this name already")).toBeVisible();
});

test("a unit that was never tested has its line in the budget, and its page says to book a baseline test", async ({
  page,
}) => {
  await openBudget(page);
  const line = page.getByRole("row", { name: /^Never tested or too few tests/ });
  await expect(line).toContainText("by what their models foresee; book a baseline test");
  // Some money is expected, planned and unplanned.
  expect(figureOf(await line.getByRole("cell").nth(1).textContent())).toBeGreaterThan(0);
  await line.getByRole("button").click();
  await page
    .getByRole("row", { name: /^H-306/ })
    .getByRole("link", { name: "H-306" })
    .click();
  await page.waitForURL("**/units/H-306");
  await expect(page.getByRole("main")).toContainText(/never tested|no test/i);
  await expect(page.getByRole("main")).toContainText("Book a baseline test");
});

test("what of an address is not understood is said in a sentence", async ({ page }) => {
  for (const [address, shown] of [
    ["/budget?span=week", "the budget"],
    ["/budget/what-if?span=week", "the page"],
    ["/budget/report?span=week", "the report"],
  ] as const) {
    await page.goto(address);
    await expect(page.getByText(`“span=week” is not understood: ${shown} is shown as without it.`)).toBeVisible();
  }
});

test("after new tests and a repair the bridge says what moved it, and adds up", async ({ page, request }) => {
  // An import, its reports, a plan, a budget and two bridges, one after the other, beside what other tests keep the processors busy with.
  test.setTimeout(240_000);
  const worse = [19, 25, 19, 19].map(
    (leaks, place) =>
      `V-104,petrol-4-a,2026-08-29,206900,km,leak-down,${place + 1},${leaks},%,1,550,1.016,crankcase,QP4-3523`,
  );
  await importFiles(request, {
    "repairs.csv":
      "unit,repair_date,meter,scope,cylinders,cost,labour_hours\nH-301,2026-08-31,684500,top-end,all,1500,14\n",
    "tests.csv": [
      "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit,attempt,supply,orifice_mm,heard_at,engine_serial",
      ...worse,
      "",
    ].join("\n"),
  });
  await openBudget(page);
  await expect(bridge(page)).toBeVisible(slowly);
  const shown = await amounts(page);
  const [from = 0, ...steps] = shown.slice(0, -1);
  // Each is told in whole units.
  const sum = steps.reduce((total, step) => total + step, from);
  expect(Math.abs(sum - (shown.at(-1) ?? 0))).toBeLessThanOrEqual(steps.length);
  await expect(bridge(page)).toContainText("Repairs done");
  await expect(bridge(page)).toContainText("H-301");
  await expect(finding(page)).toContainText("than the budget “Board”");
  // What wears in V-104 falls due years on.
  await page.getByRole("navigation", { name: "Fiscal year" }).getByText("2029").click();
  await expect(bridge(page)).toContainText("New tests", slowly);
  await expect(bridge(page)).toContainText("V-104: new leak-down test on 29 Aug 2026");
  await expectToFit(page);
  await expectAccessible(page);
});

test("a what-if is named, reckoned beside the base, and withdrawn", async ({ page }) => {
  await giveName(page);
  await openBudget(page, "/budget/what-if", "What if");
  await page.getByLabel("By how many months").fill("40");
  await page.getByLabel("Name", { exact: true }).fill("Wait");
  await page.getByRole("button", { name: "Reckon it" }).click();
  await expect(page.getByText("Give whole months, 1 to 24.").first()).toBeVisible();
  await page.getByLabel("By how many months").fill("6");
  await page.getByRole("button", { name: "Reckon it" }).click();
  const told = page.getByRole("article").filter({ hasText: "Wait" });
  await expect(told).toBeVisible();
  // It goes on when nobody looks, and is told when somebody comes back.
  await page.goto("/budget");
  await openBudget(page, "/budget/what-if", "1 what-if stands");
  await expect(told).toContainText("failures", slowly);
  await expect(told).toContainText(/bookings? moves?/);
  await expect(finding(page)).toContainText("1 what-if stands beside the budget");
  await expectToFit(page);
  await expectAccessible(page);
  await told.getByRole("button", { name: "Withdraw “Wait”" }).click();
  await expect(told).toHaveCount(0);
});

test("where top ends wait for their limits, one past its limit stays booked and is named", async ({ page }) => {
  await giveName(page);
  await openBudget(page, "/budget/what-if", "What if");
  await page.getByLabel("What if").selectOption("No top end before its limit");
  await expect(page.getByText("Pinned repairs stay, and those of units that are past their limit")).toBeVisible();
  await page.getByLabel("Name", { exact: true }).fill("Wear them out");
  await page.getByRole("button", { name: "Reckon it" }).click();
  const told = page.getByRole("article").filter({ hasText: "Wear them out" });
  await expect(told).toContainText(/Stays as booked because its limit is met already: .*V-109 \(top-end, /, slowly);
  await told.getByText(/bookings? moves?/).click();
  await expect(told.getByRole("row", { name: /^L-203/ })).toContainText("once past its limit");
  await expect(told.getByRole("row", { name: /^V-109/ })).toHaveCount(0);
  await told.getByRole("button", { name: "Withdraw “Wear them out”" }).click();
  await expect(told).toHaveCount(0);
});

test("the report is two pages on A4 and on Letter", async ({ page }) => {
  await openBudget(page, "/budget/report");
  await expect(bridge(page)).toBeVisible(slowly);
  for (const format of ["A4", "Letter"] as const) {
    const pdf = (await page.pdf({ format, printBackground: true })).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g), format).toHaveLength(2);
  }
});

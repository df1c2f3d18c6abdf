import { expect } from "@playwright/test";
import { pages } from "../pages.ts";
import { withDemoFleet } from "./demo-fleet.ts";
import { test } from "./page-checks.ts";

withDemoFleet();
test.use({ javaScriptEnabled: false });

/** Pages with a form that only script can send: a field of it, and what sends it. */
const forms: readonly (readonly [address: string, field: string, button: string])[] = [
  ["/settings", "Planning lead time, months", "See what it changes"],
  ["/depots", "Name", "Add the depot"],
  ["/depots/Highcol", "Technicians", "Save"],
  ["/models/new", "Cylinders", "See what would change"],
  ["/models/petrol-4-a/evidence", "Reason", "See what would change"],
  ["/units/V-109/record", "Remarks", "See what it changes"],
];

for (const [address, field, button] of forms)
  test(`${address} takes no letter that nothing would send, and says why`, async ({ page, context, baseURL }) => {
    await context.addCookies([{ name: "borecast-name", value: "R.%20Ames", url: baseURL ?? "" }]);
    await page.goto(address);
    const main = page.getByRole("main");
    await expect(main.getByLabel(field, { exact: true }).first()).toBeDisabled();
    await expect(main.getByRole("button", { name: button, exact: true }).first()).toBeDisabled();
    await expect(main.locator("noscript p").first()).toContainText("Script is switched off in this browser");
  });

test("a depot's changes cannot be undone before anything listens", async ({ page, context, baseURL }) => {
  await context.addCookies([{ name: "borecast-name", value: "R.%20Ames", url: baseURL ?? "" }]);
  await page.goto("/depots/Highcol");
  await expect(page.getByRole("button", { name: /^Undo this/ })).toBeDisabled();
});

const note = "Script is switched off in this browser";

test("every page says at most once that it needs script, and where something is shut it is said", async ({
  page,
  context,
  baseURL,
}) => {
  test.setTimeout(240_000);
  await context.addCookies([{ name: "borecast-name", value: "R.%20Ames", url: baseURL ?? "" }]);
  for (const { address } of pages.flatMap(({ demo }) => demo)) {
    await page.goto(address);
    const told = page.getByRole("main").getByText(note);
    const seen = await told.evaluateAll((all) => all.filter((one) => one.getClientRects().length > 0).length);
    expect(seen, address).toBe((await told.count()) === 0 ? 0 : 1);
  }
});

import { type APIRequestContext, expect, type Page } from "@playwright/test";
import { importFiles, undoImport, withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, test } from "./page-checks.ts";

withDemoFleet();

/** Two more tests of V-101, which was on watch by its compression, and a van that nobody knew. */
const news = {
  "august.csv": [
    "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit,orifice_mm,heard_at,depot",
    ...["2026-08-17,237900", "2026-08-26,238600"].flatMap((day) =>
      [38, 4, 5, 4].map(
        (value, i) =>
          `V-101,petrol-4-a,${day},km,leak-down,${i + 1},${value},%,1.016,${i === 0 ? "exhaust" : "none"},Lowmarsh`,
      ),
    ),
  ].join("\n"),
  "units.csv": "unit,engine_model,meter_unit,depot\nV-199,petrol-4-a,km,Midfell\n",
};

const link = (page: Page, words: string) => page.getByRole("navigation", { name: "Changes by kind" }).getByText(words);
const row = (page: Page, unit: string) => page.getByRole("row").filter({ hasText: unit });

/** Has the viewer been here before the news came in: the visit before this one ended now. */
async function visited(page: Page, baseURL: string | undefined): Promise<void> {
  const now = Date.now();
  await page.context().addCookies([{ name: "borecast-visits", value: `${now}.${now}`, url: baseURL ?? "" }]);
}

const addNews = (request: APIRequestContext): Promise<string> => importFiles(request, news);

test("since the last visit: what moved and why, by kind and depot, as a file; an undo takes it back", async ({
  page,
  request,
  baseURL,
}) => {
  test.slow();
  await visited(page, baseURL);
  await page.goto("/changes");
  await expect(finding(page)).toContainText("Nothing changed since your last visit");
  const id = await addNews(request);

  await page.reload();
  await expect(finding(page)).toContainText("of 41 units changed since your last visit");
  await expect(row(page, "V-101")).toContainText(/sound.* then, now past limit/);
  await expect(row(page, "V-101")).toContainText("New leak-down tests on 17 Aug 2026 and 26 Aug 2026");
  await expect(row(page, "V-199")).toContainText("new in the fleet");
  await expectToFit(page);
  await expectAccessible(page);

  await link(page, "worse").click();
  await expect(page).toHaveURL(/direction=worse/);
  await expect(row(page, "V-101")).toBeVisible();
  await expect(row(page, "V-199")).toHaveCount(0);
  await link(page, "new or left").click();
  await expect(page).toHaveURL(/kind=fleet/);
  await expect(row(page, "V-199")).toBeVisible();
  await expect(row(page, "V-101")).toHaveCount(0);
  await page.goto("/changes?depot=Midfell");
  await expect(row(page, "V-199")).toBeVisible();
  await expect(row(page, "V-101")).toHaveCount(0);

  const file = await page.request.get("/changes.csv");
  const lines = (await file.text()).split("\r\n");
  expect(lines[0]).toContain("unit,depot,engine_model,direction,band_then,band_now,top_end_status_then");
  expect(lines.find((line) => line.startsWith("V-101,Lowmarsh"))).toMatch(
    /,worse,sound,past-limit,.*New leak-down tests/,
  );

  await page.goto("/units/V-101");
  const history = page.getByRole("region", { name: "What changed" });
  await expect(history.getByRole("row").nth(1)).toContainText("New leak-down tests on 17 Aug 2026 and 26 Aug 2026");
  await expect(history.getByRole("row").nth(2)).toContainText("sound");

  await undoImport(request, id);
  await page.goto("/changes");
  await expect(finding(page)).toContainText("Nothing changed since your last visit");
});

test("two clicks from the Fleet by keyboard lead to why a unit changed", async ({ page, request, baseURL }) => {
  test.slow();
  await visited(page, baseURL);
  const id = await addNews(request);
  await page.goto("/");
  await page.getByRole("link", { name: /changed since/ }).focus();
  await page.keyboard.press("Enter");
  await expect(finding(page)).toContainText("changed since your last visit");
  await page
    .getByRole("link", { name: /^V-101/ })
    .first()
    .focus();
  await page.keyboard.press("Enter");
  await expect(page).toHaveURL(/units\/V-101/);
  await undoImport(request, id);
});

test("who was never here is told of the last 30 days, and looks further back by a date", async ({ page }) => {
  await page.goto("/changes");
  const first = page.getByRole("region", { name: "Units that changed" });
  await expect(first).toContainText(/No earlier visit of yours is known here|The first forecasts were issued on/);
  await page.getByLabel("Since", { exact: true }).fill("2026-01-02");
  await page.getByRole("button", { name: "Show since that day" }).click();
  await expect(page).toHaveURL(/since=2026-01-02/);
  await expect(first).toContainText("The first forecasts were issued on");
});

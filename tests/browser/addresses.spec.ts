import { expect, type Page } from "@playwright/test";
import { emptyPage, pages } from "../pages.ts";
import { withDemoFleet } from "./demo-fleet.ts";
import { finding, test } from "./page-checks.ts";

withDemoFleet();

// What the server draws must lead on by itself.
test.use({ javaScriptEnabled: false });

const isNamed = (route: string) => route.includes("[");

/** The page that a path belongs to; where two would take it, the one that names it itself. */
function routeOf(path: string): string | undefined {
  const parts = path.split("/").filter(Boolean);
  const fitting = pages.filter(({ route }) => {
    const wanted = route.split("/").filter(Boolean);
    return wanted.length === parts.length && wanted.every((part, at) => isNamed(part) || part === parts[at]);
  });
  return (fitting.find(({ route }) => !isNamed(route)) ?? fitting[0])?.route;
}

/** Pages that a page links to, each with the first address of it that stands there. */
async function ledTo(page: Page, address: string): Promise<ReadonlyMap<string, string>> {
  await page.goto(address);
  const found = new Map<string, string>();
  for (const link of await page.locator("a[href^='/']").all()) {
    const href = (await link.getAttribute("href")) ?? "";
    const route = routeOf(new URL(href, "http://a").pathname);
    if (route !== undefined && !found.has(route)) found.set(route, href);
  }
  return found;
}

/** Steps of a piece of work that was begun on another page: papers to print, and a question about a file that waits. */
const steps = ["units/[unit]/test/paper", "depots/[depot]/sheets", "import/[import]/columns", "plan/[unit]/quote"];

/** Of these the demo fleet has none; kept-layouts.spec.ts walks to them. */
const ofLayouts = ["import/layouts/[layout]", "import/layouts/[layout]/edit"];

test("every page is at most two clicks from the front page, but for the steps of a piece of work", async ({ page }) => {
  // It opens every page that the front page leads to.
  test.setTimeout(300_000);
  // What the plan hands on is led to once there is one.
  await expect(async () => {
    await page.goto("/plan");
    await expect(finding(page)).toContainText("booked", { timeout: 500 });
  }).toPass({ timeout: 85_000 });
  const first = await ledTo(page, "/");
  const reached = new Set(["", ...first.keys()]);
  for (const address of first.values()) for (const route of (await ledTo(page, address)).keys()) reached.add(route);
  expect(
    pages
      .map(({ route }) => route)
      .filter((route) => !reached.has(route))
      .sort(),
  ).toEqual([...steps, ...ofLayouts].sort());
});

/** Of each page that is named by a part of its address, one whose name nobody knows. */
const unknown = pages.filter(({ route }) => isNamed(route)).flatMap(({ empty }) => empty);
const noPage = ["/depots/%E0%A4", "/units/%", emptyPage.address].map((address) => ({ address, says: emptyPage.says }));

for (const { address, says } of [...unknown, ...noPage])
  test(`${address} is answered 404 with a drawn page that leads on`, async ({ page }) => {
    const answer = await page.goto(address);
    expect(answer?.status()).toBe(404);
    await expect(finding(page)).toContainText(says);
    await expect(page.getByRole("main").getByRole("link").first()).toBeVisible();
  });

test("an unknown number leads to what is called much like it", async ({ page }) => {
  await page.goto("/units/v109");
  await page.getByRole("region", { name: "Perhaps you meant" }).getByRole("link", { name: "V-109" }).click();
  await page.waitForURL("**/units/V-109");
});

test("control signs alone ask for nothing", async ({ page }) => {
  await page.goto("/find?q=%00");
  await expect(finding(page)).toContainText("Find a unit");
});

test("a date to come is looked back from as today", async ({ page }) => {
  await page.goto("/changes?since=9999-12-31");
  await expect(finding(page)).not.toContainText("9999");
});

for (const address of ["/api/units/%", "/api/imports/%E0%A4", "/api/uploads/%", "/api/jobs/%", "/api/no/such"])
  for (const method of ["GET", "POST"])
    test(`${method} ${address} is refused in the API's own form`, async ({ baseURL }) => {
      // A client that mends addresses would send another.
      const answer = await fetch(`${baseURL}${address}`, { method });
      expect([answer.status, answer.headers.get("content-type")]).toEqual([404, "application/json"]);
      expect(await answer.json()).toEqual({ error: expect.stringMatching(/\.$/) });
    });

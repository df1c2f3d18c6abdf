import { readFileSync } from "node:fs";
import { expect, type Locator, type Page } from "@playwright/test";
import Papa from "papaparse";
import { countWord } from "@/lib/wording.ts";
import { assessedUnits, demoUnits, importFiles, undoImport, withDemoFleet } from "./demo-fleet.ts";
import { expectToFit, finding, test } from "./page-checks.ts";

withDemoFleet();
// Narrower windows leave the column of use out.
test.use({ viewport: { width: 1440, height: 900 } });

const sheet = (page: Page) => page.getByRole("region", { name: "Units" });
const counts = (page: Page) => page.getByRole("navigation", { name: "Units by band and open matter" });
const count = (page: Page, words: string) => counts(page).getByRole("link", { name: new RegExp(`^\\d+ ${words}$`) });
const header = (page: Page, name: string) => sheet(page).getByRole("columnheader", { name, exact: true });
const search = (page: Page) => sheet(page).getByRole("searchbox");
const depot = (page: Page) => sheet(page).getByRole("combobox", { name: "Depot" });
const model = (page: Page) => sheet(page).getByRole("combobox", { name: "Engine model" });
const unitLink = (page: Page, unit: string) => sheet(page).getByRole("rowheader").getByRole("link", { name: unit });

/** A choice that is made before the page's script runs waits for the Search button; a test goes on until it runs. */
async function chooseSurely(page: Page, select: Locator, value: string): Promise<void> {
  await expect(async () => {
    await select.selectOption("");
    await select.selectOption(value);
    await page.waitForURL((url) => url.searchParams.has("depot"), { timeout: 2000 });
  }).toPass();
}

/** The units in the table, from top to bottom. */
const unitsShown = (page: Page): Promise<string[]> =>
  sheet(page)
    .locator("tbody th[scope=row]")
    .getByRole("link")
    .evaluateAll((links) =>
      links.map((link) => decodeURIComponent(link.getAttribute("href")?.split("/").at(-1) ?? "")),
    );

const figure = async (page: Page, words: string) => Number.parseInt((await count(page, words).textContent()) ?? "", 10);

/** The address holds these fields and no others. */
const expectAddress = (page: Page, fields: Readonly<Record<string, string>>) =>
  expect.poll(() => Object.fromEntries(new URL(page.url()).searchParams)).toEqual(fields);

/** The table holds these units and no others, in any order. */
const expectUnits = (page: Page, units: readonly string[]) =>
  expect.poll(async () => (await unitsShown(page)).sort()).toEqual([...units].sort());

/** Every neighbouring two of a list are in order; what has no value comes last. */
function expectAscending(values: readonly (number | string | null)[]): void {
  const known = values.filter((value) => value !== null);
  expect(values.slice(0, known.length)).not.toContain(null);
  for (const [i, value] of known.entries()) {
    const before = known[i - 1];
    if (before !== undefined) expect(before <= value, `${before} stands before ${value}`).toBe(true);
  }
}

test("each count leads to its units, and the filter stands in the address", async ({ page, request }) => {
  const assessed = await assessedUnits(request);
  const those = (isOne: (unit: (typeof assessed)[number]) => boolean) => assessed.filter(isOne).map(({ unit }) => unit);
  await page.goto("/");
  await expect(count(page, "all units")).toHaveAttribute("aria-current", "true");
  expect(await figure(page, "all units")).toBe(demoUnits.length);

  for (const { words, band, units } of [
    { words: "plan", band: "plan", units: those((u) => u.band === "plan") },
    { words: "watch", band: "watch", units: those((u) => u.band === "watch") },
    { words: "never tested", band: "never-tested", units: ["H-306"] },
    // Last tested more than a year ago; H-306, never tested, is told as that.
    { words: "no recent test", band: "overdue", units: ["M-603"] },
    { words: "question open", band: "question", units: those((u) => u.questions.length > 0) },
  ]) {
    expect(units).not.toEqual([]);
    await count(page, words).click();
    await expectAddress(page, { band });
    await expectUnits(page, units);
    await expect(count(page, words)).toHaveAttribute("aria-current", "true");
    expect(await figure(page, words)).toBe(units.length);
  }
  await expect(sheet(page).getByRole("row", { name: /^P-402/ })).toContainText("asks you");

  await count(page, "all units").click();
  await expectAddress(page, {});
  await expect.poll(async () => (await unitsShown(page)).length).toBe(25);
});

test("the finding says what the counts say", async ({ page }) => {
  await page.goto("/");
  const inWords = (n: number) => new RegExp(`\\b(${countWord(n)}|${n})\\b`, "i");
  for (const matter of ["plan", "no recent test", "question open"]) {
    await expect(finding(page)).toHaveText(inWords(await figure(page, matter)));
  }
});

test("search finds units by number and by weakest place, and says when there are none", async ({ page }) => {
  await page.goto("/");
  await search(page).fill("p-40");
  await search(page).press("Enter");
  await expectAddress(page, { search: "p-40" });
  await expectUnits(page, ["P-401", "P-402", "P-403", "P-404"]);

  await search(page).fill("head gasket");
  await sheet(page).getByRole("button", { name: "Search" }).click();
  await expectAddress(page, { search: "head gasket" });
  await expect.poll(() => unitsShown(page)).toContain("V-109");
  await expect.poll(() => unitsShown(page)).not.toContain("P-401");

  await search(page).fill("no such engine");
  await search(page).press("Enter");
  await expect(sheet(page).getByText("No unit matches")).toBeVisible();
  await expect(sheet(page).getByRole("table")).toHaveCount(0);
  await sheet(page).getByRole("link", { name: "Show all units" }).click();
  await expectAddress(page, {});
  await expect(search(page)).toHaveValue("");
  await expect.poll(async () => (await unitsShown(page)).length).toBe(25);
});

test("depot and model narrow the table together with a search", async ({ page }) => {
  await page.goto("/");
  await chooseSurely(page, depot(page), "Highcol");
  await expectAddress(page, { depot: "Highcol" });
  const atHighcol = demoUnits.filter((u) => u.depot === "Highcol");
  await expectUnits(
    page,
    atHighcol.map((u) => u.unit),
  );

  await model(page).selectOption("diesel-6-a");
  await expectAddress(page, { depot: "Highcol", model: "diesel-6-a" });
  const sixes = atHighcol.filter((u) => u.engine_model === "diesel-6-a");
  await expectUnits(
    page,
    sixes.map((u) => u.unit),
  );

  await search(page).fill("G-5");
  await search(page).press("Enter");
  await expectAddress(page, { depot: "Highcol", model: "diesel-6-a", search: "G-5" });
  await expectUnits(
    page,
    sixes.filter((u) => u.unit.startsWith("G-5")).map((u) => u.unit),
  );
  await expect(sheet(page).getByText(/, by due date/)).toContainText("Unit 1 of 1");
});

test("a column's header sorts by it, and turns the order round", async ({ page, request }) => {
  const assessed = new Map((await assessedUnits(request)).map((unit) => [unit.unit, unit]));
  const shown = async () => (await unitsShown(page)).map((unit) => assessed.get(unit)!);
  const sortBy = async (name: string, fields: Readonly<Record<string, string>>) => {
    await header(page, name).getByRole("link").click();
    await expectAddress(page, fields);
    await expect(header(page, name)).toHaveAttribute(
      "aria-sort",
      fields["order"] === "down" ? "descending" : "ascending",
    );
  };
  await page.goto("/");
  await expect(header(page, "Repair likely")).toHaveAttribute("aria-sort", "ascending");

  await sortBy("Unit", { sort: "unit" });
  const byName = demoUnits.map((u) => u.unit).sort();
  await expect.poll(() => unitsShown(page)).toEqual(byName.slice(0, 25));
  await sortBy("Unit", { sort: "unit", order: "down" });
  await expect.poll(() => unitsShown(page)).toEqual(byName.reverse().slice(0, 25));

  await sortBy("Last test", { sort: "last-test" });
  await expect.poll(async () => (await unitsShown(page))[0]).toBe("M-603");
  expectAscending((await shown()).map((unit) => unit.lastTestDate));
  await sortBy("Use a week", { sort: "use" });
  await expect(sheet(page).getByText(/^Units 1.25 of 40/)).toContainText("by use");
  expectAscending((await shown()).map((unit) => unit.meter.perDay));

  await sortBy("Band", { sort: "band" });
  await expect(sheet(page).getByText(/^Units 1.25 of 40/)).toContainText("by band");
  const urgency = ["past-limit", "plan", "watch", "sound"];
  expectAscending((await shown()).map(({ band }) => (band === null ? null : urgency.indexOf(band))));
  await expect(header(page, "Repair likely")).not.toHaveAttribute("aria-sort");
});

test("paging shows every unit once", async ({ page }) => {
  await page.goto("/");
  const pages = sheet(page).getByRole("navigation", { name: "Pages of the table" });
  await expect(sheet(page).getByText("Units 1–25 of 40")).toBeVisible();
  await expect(pages.getByRole("link")).toHaveCount(1);
  const first = await unitsShown(page);
  await pages.getByRole("link", { name: "Next 15" }).click();
  await expectAddress(page, { page: "2" });
  await expect(sheet(page).getByText("Units 26–40 of 40")).toBeVisible();
  const second = await unitsShown(page);
  expect([...first, ...second].sort()).toEqual(demoUnits.map((u) => u.unit).sort());

  await page.goto("/?page=99");
  await expectAddress(page, { page: "2" });
  await pages.getByRole("link", { name: "Back" }).click();
  await expectAddress(page, {});
  await expect.poll(() => unitsShown(page)).toEqual(first);
});

test("the axis shows one, three or five years", async ({ page }) => {
  await page.goto("/");
  const years = sheet(page).getByRole("navigation", { name: "Years shown" });
  const axis = (until: string) => sheet(page).getByRole("columnheader", { name: `to 31 Aug ${until}` });
  await expect(axis("2029")).toBeVisible();
  await years.getByRole("link", { name: "1 year" }).click();
  await expectAddress(page, { years: "1" });
  await expect(axis("2027")).toBeVisible();
  await expect(years.getByRole("link", { name: "1 year" })).toHaveAttribute("aria-current", "true");
  await years.getByRole("link", { name: "5 years" }).click();
  await expectAddress(page, { years: "5" });
  await expect(axis("2031")).toBeVisible();
  await years.getByRole("link", { name: "3 years" }).click();
  await expectAddress(page, {});
  await expect(axis("2029")).toBeVisible();
});

test("Back restores each view, also from a unit", async ({ page }) => {
  await page.goto("/");
  const all = await unitsShown(page);
  await search(page).fill("V-1");
  await search(page).press("Enter");
  await expectAddress(page, { search: "V-1" });
  await expectUnits(
    page,
    demoUnits.map((u) => u.unit).filter((unit) => unit.startsWith("V-1")),
  );
  await expect(count(page, "of 40 units")).toHaveAttribute("aria-current", "true");
  await count(page, "plan").click();
  await expectAddress(page, { search: "V-1", band: "plan" });
  await expect.poll(() => unitsShown(page)).not.toContain("V-101");
  const planned = await unitsShown(page);

  await unitLink(page, "V-108").click();
  await page.waitForURL("**/units/V-108");
  await expect(page).toHaveTitle(/V-108/);
  await page.goBack();
  await expectAddress(page, { search: "V-1", band: "plan" });
  await expect.poll(() => unitsShown(page)).toEqual(planned);
  await expect(search(page)).toHaveValue("V-1");
  await page.goBack();
  await expectAddress(page, { search: "V-1" });
  await expect(count(page, "of 40 units")).toHaveAttribute("aria-current", "true");
  await page.goBack();
  await expectAddress(page, {});
  await expect.poll(() => unitsShown(page)).toEqual(all);
  await expect(search(page)).toHaveValue("");
});

test("a link to a view shows the same view to another", async ({ page, browser, baseURL }) => {
  await page.goto("/");
  await count(page, "watch").click();
  await expectAddress(page, { band: "watch" });
  await depot(page).selectOption("Lowmarsh");
  await expectAddress(page, { band: "watch", depot: "Lowmarsh" });
  await header(page, "Unit").getByRole("link").click();
  await expectAddress(page, { band: "watch", depot: "Lowmarsh", sort: "unit" });
  await header(page, "Unit").getByRole("link").click();
  await expectAddress(page, { band: "watch", depot: "Lowmarsh", sort: "unit", order: "down" });
  await sheet(page).getByRole("navigation", { name: "Years shown" }).getByRole("link", { name: "5 years" }).click();
  await expectAddress(page, { band: "watch", depot: "Lowmarsh", sort: "unit", order: "down", years: "5" });
  await expect(header(page, "Unit")).toHaveAttribute("aria-sort", "descending");
  const units = await unitsShown(page);
  expect(units.length).toBeGreaterThan(1);

  const context = await browser.newContext({ ...(baseURL === undefined ? {} : { baseURL }) });
  const other = await context.newPage();
  await other.goto(page.url());
  expect(await unitsShown(other)).toEqual(units);
  await expect(count(other, "watch")).toHaveAttribute("aria-current", "true");
  await expect(depot(other)).toHaveValue("Lowmarsh");
  await expect(header(other, "Unit")).toHaveAttribute("aria-sort", "descending");
  await expect(sheet(other).getByRole("columnheader", { name: "to 31 Aug 2031" })).toBeVisible();
  await context.close();
});

test("counts and finding are of the part that is looked at", async ({ page, request }) => {
  const depots = new Map(demoUnits.map(({ unit, depot: its }) => [unit, its]));
  const there = (await assessedUnits(request)).filter(({ unit }) => depots.get(unit) === "Highcol");
  await page.goto("/?depot=Highcol&band=watch");
  await expect(finding(page)).toHaveText(/^Highcol: /);
  expect(await figure(page, "of 40 units")).toBe(there.length);
  for (const band of ["plan", "watch", "sound"] as const) {
    expect(await figure(page, band), band).toBe(there.filter((unit) => unit.band === band).length);
  }
  await expect(count(page, "watch")).toHaveAttribute("aria-current", "true");
  await count(page, "of 40 units").click();
  await expectAddress(page, { depot: "Highcol" });
  await expect.poll(async () => (await unitsShown(page)).length).toBe(there.length);
});

test("groups stand under headings with their counts, in the chosen order, and go on over pages", async ({ page }) => {
  const sizes = new Map<string, number>();
  for (const unit of demoUnits) sizes.set(unit.depot, (sizes.get(unit.depot) ?? 0) + 1);
  const names = [...sizes.keys()].sort();
  const groupsShown = () => sheet(page).getByRole("table").locator("th[scope=rowgroup]").allInnerTexts();
  await page.goto("/?sort=unit");
  await expect(async () => {
    await sheet(page).getByRole("combobox", { name: "Groups" }).selectOption("");
    await sheet(page).getByRole("combobox", { name: "Groups" }).selectOption("depot");
    await page.waitForURL((url) => url.searchParams.has("group"), { timeout: 2000 });
  }).toPass();
  await expectAddress(page, { group: "depot", sort: "unit" });
  await expect.poll(async () => (await groupsShown())[0]).toContain(`${names[0]} ${sizes.get(names[0]!)} units`);
  const byGroup = names.flatMap((name) =>
    demoUnits
      .filter((unit) => unit.depot === name)
      .map(({ unit }) => unit)
      .sort(),
  );
  expect(await unitsShown(page)).toEqual(byGroup.slice(0, 25));

  await sheet(page).getByRole("link", { name: "Next 15" }).click();
  await expectAddress(page, { group: "depot", sort: "unit", page: "2" });
  await expect.poll(() => unitsShown(page)).toEqual(byGroup.slice(25));
  expect((await groupsShown())[0]).toContain("continued");

  await header(page, "Unit").getByRole("link").click();
  await expectAddress(page, { group: "depot", sort: "unit", order: "down" });
  await expect.poll(async () => (await unitsShown(page))[0]).toBe(byGroup.slice(0, sizes.get(names[0]!)).at(-1));
  expect((await groupsShown())[0]).toContain(names[0]);

  await page.goto("/?group=band");
  await expect(sheet(page).getByRole("table").locator("th[scope=rowgroup]").first()).toContainText("past limit");
  await page.goto("/?group=model&rows=50");
  await expect.poll(async () => (await unitsShown(page)).length).toBe(demoUnits.length);
  expect(await groupsShown()).toHaveLength(new Set(demoUnits.map((unit) => unit.engine_model)).size);
});

test("a unit without tests has its window from its model alone, and that is told", async ({ page }) => {
  await page.goto("/?band=never-tested&years=5");
  await expectUnits(page, ["H-306"]);
  await expect(sheet(page).getByRole("row", { name: /^H-306/ })).toContainText("from the model only");
  await expect(
    sheet(page)
      .getByRole("listitem")
      .filter({ hasText: /^from the model only$/ }),
  ).toBeVisible();
});

test("a unit that is sold before a repair is likely says so in its window, in words, on a phone and in the file", async ({
  page,
  request,
}) => {
  const told = "unit,engine_model,meter_unit,disposal_date\nA-703,air-flat4-a,h,2028-12-31\n";
  const id = await importFiles(request, { "disposals.csv": told });
  try {
    await page.goto("/?search=A-703&years=5");
    const row = sheet(page)
      .getByRole("row")
      .filter({ has: page.getByRole("link", { name: /^A-703/ }) });
    await expect(row).toContainText("sold before, 31 Dec 2028");
    await expect(row.locator('use[href="#window-sold"]')).toHaveCount(1);
    await expect(sheet(page).getByText("planned for disposal before the likely date")).toBeVisible();
    await page.emulateMedia({ media: "print" });
    await expect(row.getByText("sold before, 31 Dec 2028", { exact: true })).toBeVisible();
    await page.emulateMedia({ media: "screen" });
    await page.setViewportSize({ width: 390, height: 844 });
    await expect(row.getByText(/^top-end .*, sold before, on 31 Dec 2028$/)).toBeVisible();
    await expectToFit(page);
    const file = await (await request.get("/fleet.csv?search=A-703")).text();
    const { data } = Papa.parse<Record<string, string>>(file.slice(1), { header: true, skipEmptyLines: true });
    expect(data.map((line) => [line["top_end_sold_before"], line["bottom_end_sold_before"]])).toEqual([
      ["2028-12-31", ""],
    ]);
  } finally {
    await undoImport(request, id);
  }
  await page.goto("/?search=A-703");
  await expect(sheet(page).getByText(/sold before/)).toHaveCount(0);
});

test("the depots' closed and peak weeks are told in words and in the key", async ({ page }) => {
  await page.goto("/?group=depot");
  const weeks = sheet(page).getByRole("list", { name: "Peak and closed weeks of the depots" });
  await expect(weeks).toContainText(/Highcol: .*closed \d+ \w+ 20\d\d to \d+ \w+ 20\d\d/);
  await expect(sheet(page).getByText("depot closed", { exact: true })).toBeVisible();
  await expect(sheet(page).getByText("peak weeks", { exact: true })).toBeVisible();
  const heading = sheet(page).getByRole("table").locator("th[scope=rowgroup]", { hasText: "Highcol" });
  await expect(heading).toContainText(/closed \d+ \w+ 20\d\d/);
});

test("columns are chosen by keyboard alone, and stand in the address", async ({ page }) => {
  await page.goto("/");
  await sheet(page).getByText("Columns", { exact: true }).focus();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("checkbox", { name: "Band" })).toBeChecked();
  for (const name of ["Use a week", "Engine, cylinder by cylinder", "Next test due", "Class"]) {
    await page.getByRole("checkbox", { name }).focus();
    await page.keyboard.press("Space");
  }
  await page.getByRole("button", { name: "Show these" }).focus();
  await page.keyboard.press("Enter");
  await expect(header(page, "Next test")).toBeVisible();
  await expect(header(page, "Use a week")).toHaveCount(0);
  await expect(header(page, "Engine")).toHaveCount(0);
  await expect(page.getByRole("checkbox", { name: "Band" })).toBeHidden();

  await header(page, "Next test").getByRole("link").click();
  await expectAddress(page, { columns: "band class place last-test next-test likely", sort: "next-test" });
  await expect(header(page, "Next test")).toHaveAttribute("aria-sort", "ascending");

  await sheet(page).getByText("Columns", { exact: true }).click();
  await sheet(page).getByRole("link", { name: "As usual" }).click();
  await expectAddress(page, { sort: "next-test" });
  await expect(header(page, "Use a week")).toBeVisible();
});

test("where the window is narrow columns leave before the axis does", async ({ page }) => {
  const every = "band depot model class status serial engine place last-test next-test meter use likely";
  for (const width of [1080, 1200, 1300, 1440, 1920]) {
    await page.setViewportSize({ width, height: 900 });
    for (const columns of [[], [every]]) {
      await page.goto(`/?${new URLSearchParams(columns.map((words) => ["columns", words]))}`);
      const axis = await sheet(page)
        .getByRole("columnheader", { name: /^Early to late/ })
        .boundingBox();
      expect(axis?.width, `${width} px`).toBeGreaterThanOrEqual(299);
      await expect(header(page, "Band")).toBeVisible();
    }
  }
  await expect(header(page, "Meter")).toBeVisible();
});

test("the view downloads as CSV: every unit of it, the columns chosen and both windows", async ({ page, request }) => {
  const assessed = new Map((await assessedUnits(request)).map((unit) => [unit.unit, unit]));
  await page.goto("/?group=depot&sort=unit&columns=class+use+top-chance&rows=12&page=2");
  const downloading = page.waitForEvent("download");
  await sheet(page).getByRole("link", { name: "Download CSV" }).click();
  const download = await downloading;
  expect(download.suggestedFilename()).toBe("fleet-2026-08-31.csv");
  const text = readFileSync((await download.path())!, "utf8");
  expect(text.startsWith("\ufeffunit,depot,engine_model,class,")).toBe(true);
  const { data, errors } = Papa.parse<Record<string, string>>(text.slice(1), { header: true, skipEmptyLines: true });
  expect(errors).toEqual([]);
  const inOrder = [...demoUnits].sort((a, b) => (a.depot + a.unit < b.depot + b.unit ? -1 : 1));
  expect(data.map((row) => row["unit"])).toEqual(inOrder.map(({ unit }) => unit));
  for (const row of data) {
    const { topEnd, bottomEnd } = assessed.get(row["unit"]!)!.repairs;
    // Sister engines alone foretell what comes of this one; its assessment has no date.
    if (row["unit"] === "H-306") {
      expect([row["forecast_from"], topEnd.date.p10]).toEqual(["model", null]);
      continue;
    }
    expect([row["top_end_status"], row["top_end_early_p10"], row["top_end_late_p90"]]).toEqual([
      topEnd.status,
      topEnd.date.p10 ?? "",
      topEnd.date.p90 ?? "",
    ]);
    expect(row["bottom_end_likely_p50"]).toBe(bottomEnd.date.p50 ?? "");
  }
});

test("on paper: no controls, what is left out in words, which rows these are", async ({ page }) => {
  await page.goto("/?depot=Highcol&band=plan&group=model");
  await page.emulateMedia({ media: "print" });
  await expect(page.getByRole("banner")).toBeHidden();
  await expect(search(page)).toBeHidden();
  await expect(sheet(page).getByText("Highcol; at plan", { exact: true })).toBeVisible();
  await expect(sheet(page).getByRole("table")).toBeVisible();
  await expect(sheet(page).getByText(/^Units? 1.* grouped by engine model, by due date/)).toBeVisible();
  await expect(finding(page)).toBeVisible();
});

test("any page can be asked for, and how many units it shows", async ({ page }) => {
  await page.goto("/?rows=12&sort=unit");
  const names = demoUnits.map((u) => u.unit).sort();
  await expect.poll(() => unitsShown(page)).toEqual(names.slice(0, 12));
  await sheet(page).getByRole("spinbutton", { name: /^Page/ }).fill("4");
  await sheet(page).getByRole("button", { name: "Go" }).click();
  await expectAddress(page, { rows: "12", sort: "unit", page: "4" });
  await expect.poll(() => unitsShown(page)).toEqual(names.slice(36));
  await sheet(page).getByRole("link", { name: "50 units a page" }).click();
  await expectAddress(page, { rows: "50", sort: "unit" });
  await expect.poll(() => unitsShown(page)).toEqual(names);
});

test("an address that asks for nothing known shows the whole fleet", async ({ page }) => {
  await page.goto("/?band=purple&sort=colour&years=40&page=-3&order=sideways");
  await expect(count(page, "all units")).toHaveAttribute("aria-current", "true");
  await expect(header(page, "Repair likely")).toHaveAttribute("aria-sort", "ascending");
  await expect(sheet(page).getByText("Units 1–25 of 40")).toBeVisible();
});

test("on a phone the rows keep every head for a screen reader, and are ordered by a list", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto("/");
  for (const name of ["Unit", "Band", "Engine", "Weakest place, and why", "Last test", "Use a week", "Repair likely"]) {
    await expect(header(page, name)).toHaveCount(1);
  }
  const heads = await sheet(page).getByRole("columnheader").count();
  const first = sheet(page).getByRole("row").nth(1);
  expect((await first.getByRole("rowheader").count()) + (await first.getByRole("cell").count())).toBe(heads);
  const order = sheet(page).getByRole("combobox", { name: "Order" });
  await expect(async () => {
    await order.selectOption("due");
    await order.selectOption("unit");
    await page.waitForURL(/sort=unit/, { timeout: 2000 });
  }).toPass();
  await expect(unitLink(page, "A-701").first()).toBeVisible();
  await expect(order).toHaveValue("unit");
});

test("on a phone the units stand as blocks that lead to them", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto("/?search=L-203");
  const block = sheet(page)
    .getByRole("row")
    .filter({ has: page.getByRole("link", { name: /^L-203/ }) });
  // Its lines stand below each other, over the whole width.
  const [box, place] = [
    await block.boundingBox(),
    await block
      .getByText(/exhaust valve/i)
      .first()
      .boundingBox(),
  ];
  expect(box?.width).toBeGreaterThan(330);
  expect(box?.height).toBeGreaterThan(100);
  expect(place?.x).toBeLessThan((box?.x ?? 0) + 20);
  // The heads are there for a screen reader alone.
  expect((await sheet(page).getByRole("columnheader", { name: "Band" }).boundingBox())?.width).toBeLessThanOrEqual(1);
  await expect(block).toContainText(/exhaust valve/i);
  await expect(block).toContainText(/top-end/);
  await block.getByRole("link", { name: /^L-203/ }).click();
  await page.waitForURL("**/units/L-203");
  await expect(finding(page)).toContainText("Top-end repair");
});

test.describe("by a phone's browser", () => {
  test.use({
    viewport: { width: 390, height: 844 },
    userAgent: "Mozilla/5.0 (Phone) Mobile",
  });

  test("a page holds twelve units, in groups under headings", async ({ page }) => {
    await page.goto("/?group=band");
    await expect(sheet(page).getByText("Units 1–12 of 40")).toBeVisible();
    const blocks = sheet(page)
      .getByRole("row")
      .filter({ has: page.locator('a[href^="/units/"]') });
    await expect(blocks).toHaveCount(12);
    await expect(sheet(page).getByRole("rowheader", { name: /^past limit \d/ })).toBeVisible();
  });

  test("columns that were chosen stand in the blocks, led by their names", async ({ page }) => {
    await page.goto("/?columns=place+meter&search=V-109");
    const block = sheet(page)
      .getByRole("row")
      .filter({ has: page.locator('a[href^="/units/"]') });
    await expect(block.locator(".col-meter")).toBeVisible();
    await expect(block.locator(".col-meter")).toHaveCSS("display", "flex");
    const told = await block.locator(".col-meter").evaluate((cell) => getComputedStyle(cell, "::before").content);
    // Seen, and not said: to a screen reader the head of the column says it.
    expect(told).toBe('"Meter" / ""');
    await expect(block.locator(".col-band")).toHaveCount(0);
  });
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("the table, the counts and the search still work", async ({ page }) => {
    await page.goto("/");
    await expect(sheet(page).getByText("Units 1–25 of 40")).toBeVisible();
    await count(page, "never tested").click();
    await expectAddress(page, { band: "never-tested" });
    await expectUnits(page, ["H-306"]);
    await page.goto("/?years=5");
    await search(page).fill("V-112");
    await sheet(page).getByRole("button", { name: "Search" }).click();
    await expectAddress(page, { search: "V-112", depot: "", model: "", group: "", sort: "due", years: "5" });
    await expectUnits(page, ["V-112"]);
  });

  test("columns can be chosen as well", async ({ page }) => {
    await page.goto("/?sort=unit");
    await sheet(page).getByText("Columns", { exact: true }).click();
    await page.getByRole("checkbox", { name: "Status" }).check();
    await page.getByRole("checkbox", { name: "Use a week" }).uncheck();
    await page.getByRole("button", { name: "Show these" }).click();
    await expect(header(page, "Status")).toBeVisible();
    await expect(header(page, "Use a week")).toHaveCount(0);
    await expect(header(page, "Unit")).toHaveAttribute("aria-sort", "ascending");
    await expect(sheet(page).getByRole("button", { name: "Print" })).toBeHidden();
  });
});

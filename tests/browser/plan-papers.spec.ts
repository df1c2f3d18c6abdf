import { type APIRequestContext, expect, type Page } from "@playwright/test";
import ICAL from "ical.js";
import Papa from "papaparse";
import { importFiles, undoImport, withDemoFleet } from "./demo-fleet.ts";
import { expectPrintable, finding, openPlan, test } from "./page-checks.ts";

withDemoFleet();

// A connection that is kept may be closed by the server just as it is used again.
const headers = { connection: "close" };

/** A plan that nobody has a hand in follows the facts, some seconds after they have changed. */
const madeWithin = { timeout: 85_000 };

interface Booked {
  readonly unit: string;
  readonly depot: string;
  readonly engine_model: string;
  readonly repair: string;
  readonly start: string;
  readonly last_bay_day: string;
  readonly labour_hours: string;
}

/** The plan's bookings as their file tells them, once the plan is made. */
async function bookings(page: Page, request: APIRequestContext): Promise<readonly Booked[]> {
  await openPlan(page, "/plan");
  const text = await (await request.get("/plan/csv/bookings", { headers })).text();
  return Papa.parse<Booked>(text.replace(/^\ufeff/, ""), { header: true, skipEmptyLines: true }).data;
}

test("every booking has a job card of two sides and a quote of one, on A4 and on Letter", async ({ page, request }) => {
  test.slow();
  const booked = await bookings(page, request);
  expect(booked.length).toBeGreaterThan(2);
  for (const { unit, repair } of booked) {
    for (const [paper, pages] of [
      ["card", 2],
      ["quote", 1],
    ] as const) {
      const address = `/plan/${unit}/${paper}?scope=${repair}`;
      await page.goto(address);
      await expect(finding(page)).toContainText(unit);
      for (const format of ["A4", "Letter"]) {
        const pdf = (await page.pdf({ format, preferCSSPageSize: false })).toString("latin1");
        expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length, `${address} on ${format}`).toBe(pages);
      }
    }
  }
});

test("the card says what to check first and what may hurt, the quote both classes with their chances", async ({
  page,
  request,
}) => {
  const [first] = await bookings(page, request);
  if (first === undefined) throw new Error("nothing is booked");
  await page.goto(`/plan/${first.unit}/card`);
  const card = page.getByRole("article", { name: `Job card of ${first.unit}` });
  await expect(card.getByRole("heading", { name: /^Before the head comes off/ })).toBeVisible();
  await expect(card).toContainText("Test air can spin the crank");
  await expect(card).toContainText("Never open a hot cooling system");
  await expect(card.getByRole("row", { name: /^Labour/ })).toContainText(`${first.labour_hours} h`);
  await expect(page.getByRole("article", { name: /^Strip-down/ })).toContainText("Could have run on");

  await page.getByRole("link", { name: "Quote", exact: true }).click();
  const quote = page.getByRole("article", { name: `Quote for ${first.unit}` });
  await expect(quote).toContainText("A quote is a range until the head is off");
  // The same three figures on both.
  const figures = async (paper: typeof card) =>
    (
      await paper
        .getByRole("row", { name: /^Parts, / })
        .locator("td")
        .allTextContents()
    ).slice(0, 3);
  const quoted = await figures(quote);
  expect(quoted.every((amount) => /\d/.test(amount))).toBe(true);
  await page.goBack();
  expect(await figures(card)).toEqual(quoted);
  await page.goForward();
  const chances = await quote.getByRole("table").last().getByRole("row").locator("td:nth-child(2)").allTextContents();
  const told = chances.filter((chance) => chance !== "–").map((chance) => Number(/\d+/.exec(chance)?.[0]));
  expect(told).toHaveLength(2);
  expect(told[0] ?? 0).toBeGreaterThan(told[1] ?? 0);
  await expectPrintable(page);
});

test("a depot's note and the test sheets of its round print, the sheets a page for each unit", async ({
  page,
  request,
}) => {
  test.slow();
  const [first] = await bookings(page, request);
  if (first === undefined) throw new Error("nothing is booked");
  const pagesOn = async (format: string) =>
    (await page.pdf({ format, preferCSSPageSize: false })).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length;
  await page.goto(`/depots/${first.depot}/sheets?weeks=13`);
  const sheets = await page.locator(".paper-sheet").count();
  expect(sheets).toBeGreaterThan(1);
  for (const format of ["A4", "Letter"]) expect(await pagesOn(format), `sheets on ${format}`).toBe(sheets);
  await page.goto(`/plan/depots/${first.depot}/note`);
  await expect(finding(page)).toContainText(`Note to ${first.depot}`);
  for (const format of ["A4", "Letter"]) expect(await pagesOn(format), `note on ${format}`).toBe(2);
});

test("a depot's calendar has its bookings from their Monday to their last day in the bay", async ({
  page,
  request,
}) => {
  const booked = await bookings(page, request);
  for (const depot of new Set(booked.map((of) => of.depot))) {
    await page.goto(`/plan/depots/${depot}/note`);
    await expect(finding(page)).toContainText(`Note to ${depot}`);
    const link = page.getByRole("link", { name: `Calendar of ${depot}` });
    const answer = await request.get((await link.getAttribute("href")) ?? "", { headers });
    expect(answer.headers()["content-type"]).toContain("text/calendar");
    const events = new ICAL.Component(ICAL.parse(await answer.text()))
      .getAllSubcomponents("vevent")
      .map((component) => new ICAL.Event(component));
    const told = events.map(({ summary, startDate, endDate }) => {
      endDate.adjust(-1, 0, 0, 0);
      return [summary.split(" ")[0], startDate.toString(), endDate.toString()];
    });
    const wanted = booked.filter((of) => of.depot === depot).map((of) => [of.unit, of.start, of.last_bay_day]);
    expect(told).toEqual(wanted);
  }
});

test("a repair that is recorded closes its booking and stands beside its forecast", async ({ page, request }) => {
  test.slow();
  const [first] = await bookings(page, request);
  if (first === undefined) throw new Error("nothing is booked");
  const { unit, repair, labour_hours: hours } = first;
  const meter = await (await request.get(`/units/${unit}/csv/tests`, { headers })).text();
  const latest = Papa.parse<{ readonly meter: string; readonly meter_unit: string }>(meter.replace(/^\ufeff/, ""), {
    header: true,
    skipEmptyLines: true,
  }).data[0];
  const made = await importFiles(request, {
    "repairs.csv": `unit,repair_date,meter,scope,cylinders,labour_hours\n${unit},2026-08-31,${latest?.meter},${repair},all,${Number(hours) + 2}\n`,
  });
  await page.goto(`/plan/${unit}/card`);
  await expect(finding(page)).toContainText("no repair is booked");
  await page.getByRole("link", { name: "What it took, beside the forecast" }).click();
  const row = page.getByRole("row", { name: new RegExp(`^${unit} `) });
  await expect(row).toContainText(`${Number(hours) + 2} h`);
  await expect(row).toContainText("+2 h");
  await expect(row).toContainText("not known");
  await undoImport(request, made);
  await expect(async () => {
    await page.goto(`/plan/${unit}/card`);
    await expect(finding(page)).toContainText(/ repair in week /, { timeout: 500 });
  }).toPass(madeWithin);
});

import { readFile } from "node:fs/promises";
import { expect } from "@playwright/test";
import { withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, finding, giveName, test } from "./page-checks.ts";

withDemoFleet();

/** What each of these units must say on its own page, beside what the finding says. */
const stories: readonly { readonly unit: string; readonly story: string; readonly says: readonly RegExp[] }[] = [
  {
    unit: "V-104",
    story: "rings worn in all cylinders",
    says: [
      /Bottom-end repair likely/,
      /All cylinders, probably the piston rings or bore/,
      /rises 0\.\d points per 10,000\skm/,
    ],
  },
  { unit: "L-203", story: "a valve burning away", says: [/Top-end repair likely/, /Leakage doubles every [\d,]+\skm/] },
  { unit: "V-109", story: "a gasket", says: [/Test the coolant for combustion gas/, /Ask for the quote as a range/] },
  { unit: "L-207", story: "slow cranking", says: [/cranked at 110\/min/i, /not used/] },
  { unit: "P-402", story: "improved without a repair", says: [/repaired, engine swapped or another tester\?/] },
  { unit: "H-306", story: "never tested", says: [/Book a baseline test/, /sister engines? (was|were) tested/] },
  { unit: "G-502", story: "hardly works", says: [/Test again after a warm run/, /Works only about \d\d\sh a year/] },
  { unit: "V-111", story: "a new meter", says: [/new meter, 10 Nov 2025: 212,400\skm, then 35\skm/] },
  {
    unit: "L-205",
    story: "moved up the mountain",
    says: [/referred from 1,850\sm to sea level/, /Nothing stands out/],
  },
  {
    unit: "V-105",
    story: "read with a wider tester",
    says: [
      /4\.5 · 4\.5 · 4\.5 · 4\s%/,
      /20 · 20 · 20 · 18\s%/,
      /referred from a 1\.524\smm tester .* with a wider error/,
    ],
  },
  { unit: "P-404", story: "valve lift", says: [/Measure the valve lift/, /compression 1,0\d\d\skPa/] },
  { unit: "V-102", story: "valves done, rings carried on", says: [/Top-end repair, cylinder 4/, /Bottom-end repair/] },
  { unit: "A-702", story: "an aircraft", says: [/Approved data and a licensed engineer decide/, /attempt 2/] },
  { unit: "V-106", story: "not at top dead centre", says: [/top dead centre; measure again/] },
  { unit: "M-602", story: "a decompressor", says: [/not judged|leakage 8\s%/i] },
];

for (const { unit, story, says } of stories) {
  test(`${unit}, ${story}: the page says so`, async ({ page }) => {
    await page.goto(`/units/${unit}`);
    for (const words of says) await expect(page.getByRole("main")).toContainText(words);
  });
}

test("next steps carry their caution, before how sure it is", async ({ page }) => {
  await page.goto("/units/L-203");
  const next = page.getByRole("region", { name: /^Next/ });
  await expect(next.getByText("Caution.")).toBeVisible();
  const order = await page.getByRole("main").evaluate((main) => {
    const at = (words: string) => main.textContent?.indexOf(words) ?? -1;
    return [at("Next, in this order"), at("Caution."), at("How sure.")];
  });
  expect(order).toEqual([...order].sort((a, b) => a - b));
  expect(order).not.toContain(-1);
});

test("what would settle the causes stands with them, each step with what it speaks for or against", async ({
  page,
}) => {
  await page.goto("/units/V-109?measure=leak-down&cylinder=3");
  const causes = page.getByRole("region", { name: "Causes, cylinder 3" });
  await expect(causes.getByRole("heading", { name: "What would settle it" })).toBeVisible();
  await expect(causes.getByRole("listitem").filter({ hasText: "combustion gas" })).toContainText(
    /speaks for or against: head gasket/,
  );
});

test("a long list of tests is folded, and unfolds by its address", async ({ page }) => {
  await page.goto("/units/L-203?measure=leak-down&cylinder=2");
  const rows = page.getByRole("region", { name: "Tests of L-203" }).getByRole("row");
  await expect(rows).toHaveCount(13);
  await expect(page.getByText(/^The latest 12 of \d+ tests/)).toBeVisible();
  await page.getByRole("link", { name: "Show all tests" }).click();
  await page.waitForURL("**/units/L-203?measure=leak-down&cylinder=2&tests=all#tests");
  await expect.poll(() => rows.count()).toBeGreaterThan(13);
  await page.getByRole("link", { name: "Show the latest only" }).click();
  await expect(rows).toHaveCount(13);
  await expect(page.getByRole("region", { name: "Causes, cylinder 2" })).toBeVisible();
});

test("an engine's page follows it from unit to unit", async ({ page }) => {
  await page.goto("/units/H-305");
  await page.getByRole("region", { name: "Engines of H-305" }).getByRole("link", { name: "QD6-4315" }).click();
  await page.waitForURL("**/engines/QD6-4315");
  await expect(finding(page)).toHaveText(/QD6-4315 is in H-305 since 11 Mar 2025\. Before that it was in H-302\./);
  const units = page.getByRole("region", { name: "Units of engine QD6-4315" });
  await expect(units.getByRole("row", { name: /^H-302/ })).toContainText("12 Nov 2024");
  await expect(page.getByRole("region", { name: "Tests of engine QD6-4315" })).toContainText("in H-302");
  await expect(page.getByRole("img", { name: /^Leak-down of engine QD6-4315/ })).toBeVisible();
  await units.getByRole("link", { name: "H-302" }).click();
  await page.waitForURL("**/units/H-302");
});

test("engines are found by a unit that they were in; one in no unit keeps its tests", async ({ page }) => {
  await page.goto("/engines");
  await page.getByLabel("Number, model or unit").fill("h-305");
  await page.getByRole("button", { name: "Search" }).click();
  await page.waitForURL("**/engines?search=h-305");
  const rows = page.getByRole("region", { name: "List of engines" }).getByRole("row");
  await expect(rows).toHaveCount(3);
  await page.getByRole("link", { name: "QD6-4327" }).click();
  await expect(finding(page)).toHaveText(/in no unit since 11 Mar 2025: a float or a core/);
  await expect(page.getByRole("region", { name: "Tests of engine QD6-4327" }).getByRole("row")).not.toHaveCount(1);
});

test("an aircraft's engine carries its own line", async ({ page }) => {
  await page.goto("/engines/QF4-5915");
  await expect(page.getByText("Approved data and a licensed engineer decide.")).toBeVisible();
});

test("a note is kept with its author, withdrawn and put back", async ({ page }) => {
  await giveName(page);
  await page.goto("/units/L-203");
  const notes = page.getByRole("region", { name: "Notes" });
  await notes.getByRole("textbox", { name: "Note" }).fill("Driver says it\nsmokes when cold");
  await notes.getByLabel("Day").fill("2026-08-20");
  await notes.getByRole("button", { name: "Keep note" }).click();
  const note = notes.getByRole("listitem").filter({ hasText: "smokes when cold" });
  await expect(note).toContainText("20 Aug 2026");
  await expect(note).toContainText("R. Ames");
  const file = await notes.getByRole("link", { name: /^Download CSV/ }).getAttribute("href");
  const rows = await (await page.request.get(file ?? "", { headers: { connection: "close" } })).text();
  expect(rows).toContain('"Driver says it\nsmokes when cold"');
  await expect(notes.getByRole("textbox", { name: "Note" })).toHaveValue("");

  await note.getByRole("button", { name: /^Withdraw/ }).click();
  await expect(note).toContainText(/Withdrawn .+ by R\. Ames/);
  await page.reload();
  await note.getByRole("button", { name: /^Put back/ }).click();
  await expect(note.getByText("smokes when cold")).toBeVisible();
  await expect(note.getByRole("button", { name: /^Withdraw/ })).toBeVisible();
  await note.getByRole("button", { name: /^Withdraw/ }).click();
});

test("a note that cannot be kept says why beside the field, and loses nothing", async ({ page }) => {
  await giveName(page);
  await page.goto("/units/L-203");
  const notes = page.getByRole("region", { name: "Notes" });
  await notes.getByRole("textbox", { name: "Note" }).fill("   ");
  await notes.getByRole("button", { name: "Keep note" }).click();
  await expect(notes.getByText("Write what was seen or agreed.")).toBeVisible();
  await expectAccessible(page);
  await expect(notes.getByRole("textbox", { name: "Note" })).toHaveAttribute("aria-invalid", "true");
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });
  test("a unit that is not known is told by the page that the server sends", async ({ page }) => {
    for (const [address, says] of [
      ["/units/Z-999", "No unit of this number"],
      ["/units/Z-999/sheet", "No unit of this number"],
      ["/engines/none", "No engine of this number"],
      ["/units/%E0%A4", "nothing at this address"],
    ] as const) {
      const answer = await page.goto(address);
      expect(answer?.status(), address).toBe(404);
      await expect(finding(page)).toContainText(says);
    }
  });
});

/** A V8 with a question and many steps, one with a cylinder at plan, a single cylinder, and one never tested. */
for (const unit of ["P-401", "P-402", "P-404", "M-601", "H-306", "A-703"]) {
  test(`the sheet of ${unit} is one page of A4`, async ({ page }, info) => {
    await page.goto(`/units/${unit}/sheet`);
    await expect(finding(page)).toBeVisible();
    const path = info.outputPath("sheet.pdf");
    await page.pdf({ path, preferCSSPageSize: true, printBackground: true });
    const pdf = (await readFile(path)).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    expect(
      /MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/
        .exec(pdf)
        ?.slice(1)
        .map((side) => Math.round(Number(side))),
    ).toEqual([595, 842]);
    // What is on it lies on it: nothing runs into the foot.
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 703, height: 1032 });
    // A chart follows the width of the paper only after the page was laid out.
    const beyond = () =>
      page.evaluate(() => {
        const [sheet, foot] = [".depot-sheet", ".site-foot"].map((of) => document.querySelector(of));
        if (!sheet || !foot) return Number.NaN;
        return sheet.scrollHeight - Math.ceil(foot.getBoundingClientRect().top);
      });
    await expect.poll(beyond).toBeLessThanOrEqual(0);
  });
}

test("formats and notes tell where the server cannot be reached, and stay as they were", async ({ page, context }) => {
  await giveName(page);
  await page.goto("/units/V-104");
  await page.getByRole("textbox", { name: "Note" }).fill("Looked at in the yard.");
  await page.getByRole("button", { name: "Keep note" }).click();
  const note = page.getByRole("listitem").filter({ hasText: "Looked at in the yard." });
  await expect(note).toBeVisible();
  await page.getByRole("banner").getByText("R. Ames").first().click();
  await context.setOffline(true);
  await page.getByRole("button", { name: "Keep formats" }).click();
  await expect(page.getByRole("banner").getByText(/The server cannot be reached/)).toBeVisible();
  await page.keyboard.press("Escape");
  await note.getByRole("button", { name: /^Withdraw/ }).click();
  await expect(note.getByText("The note is as it was.")).toBeVisible();
  await context.setOffline(false);
  await note.getByRole("button", { name: /^Withdraw/ }).click();
  await expect(note).toContainText(/Withdrawn .+ by R\. Ames/);
  await page.getByRole("banner").getByText("R. Ames").first().click();
  await page.getByRole("button", { name: "Keep formats" }).click();
  await expect(page.getByRole("banner").getByText("Kept in this browser.")).toBeVisible();
});

import { expect, type Page } from "@playwright/test";
import { undoImport, withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
test.slow();
withDemoFleet();

const slowly = { timeout: 60_000 };
const look = (page: Page) => page.getByRole("button", { name: "See what it changes" }).click();
const keep = (page: Page) => page.getByRole("button", { name: "Keep it", exact: true }).click(slowly);
const kept = (page: Page) => expect(page.locator(".saved-note")).toContainText("Kept.", slowly);
/** The import that the last record was kept as. */
const importKept = (page: Page): string => new URL(page.url()).searchParams.get("kept") ?? "";

/** The same, after another: what was kept is shown a moment before the address tells it. */
async function keptAfter(page: Page, before: string): Promise<string> {
  await expect.poll(() => importKept(page)).not.toBe(before);
  return importKept(page);
}

/** A picture of one point. */
const png = Buffer.from(
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
  "base64",
);

test("a repair is refused with reasons, foreseen, kept with its findings and a photo, and undone", async ({ page }) => {
  await giveName(page);
  await page.goto("/units/V-109");
  await page.getByRole("navigation", { name: "Record of V-109" }).getByRole("link", { name: "Repair" }).click();
  await expect(finding(page)).toHaveText("Record of V-109: repair");
  await page.getByLabel("Labour, hours").fill("14,5");
  await look(page);
  await expect(page.getByText("Say what was done.")).toBeVisible();
  await expect(page.getByText("Give what the meter showed.")).toBeVisible();
  await expect(page.getByText("Choose the cylinders that were worked on.")).toBeVisible();
  await expect(page.getByLabel("Labour, hours")).toHaveValue("14,5");
  await expectToFit(page);
  await expectAccessible(page);

  await page.getByRole("combobox", { name: "Repair" }).first().selectOption("top-end");
  await page.getByLabel("Meter, km").fill("1");
  await page.getByLabel("Cylinder 2 was worked on").check();
  await page.getByLabel("Cylinder 3 was worked on").check();
  await page.getByRole("group", { name: "Cylinder 2", exact: true }).getByLabel("Head gasket").check();
  await page.getByRole("group", { name: "Cylinder 3", exact: true }).getByLabel("Found sound").check();
  await page.getByRole("textbox", { name: "Remarks" }).fill("burnt between 2 and 3");
  await look(page);
  await expect(page.getByRole("heading", { name: /unit/ }).last()).toBeVisible(slowly);
  await keep(page);
  // The meter cannot be 1 km now; what was typed stands.
  await expect(page.getByText(/The meter 1 km is lower than .* record that first under New meter/)).toBeVisible(slowly);
  await expect(page.getByRole("textbox", { name: "Remarks" })).toHaveValue("burnt between 2 and 3");

  await page.getByLabel("Meter, km").fill("400000");
  await page
    .locator("input[type=file]")
    .first()
    .setInputFiles({ name: "gasket.png", mimeType: "image/png", buffer: png });
  await look(page);
  await expect(page.getByText("not on file")).toBeVisible(slowly);
  await expectAccessible(page);
  await keep(page);
  await kept(page);
  const id = importKept(page);

  await page.goto("/units/V-109");
  const repairs = page.getByRole("region", { name: "Repairs", exact: true });
  await expect(repairs).toContainText("found: cylinder 2 head gasket; cylinder 3 sound; burnt between 2 and 3");
  const photo = repairs.getByRole("img", { name: /gasket\.png, by R\. Ames/ });
  await expect(photo).toBeVisible();
  const address = (await photo.getAttribute("src")) ?? "";
  const answer = await page.request.get(address);
  expect(answer.headers()).toMatchObject({ "content-type": "image/png", "x-content-type-options": "nosniff" });
  expect(answer.headers()["content-disposition"]).toMatch(/^inline; filename="repair-/);
  expect(await answer.body()).toEqual(png);
  await expectAccessible(page);

  await undoImport(page.request, id);
  await page.reload();
  await expect(repairs).not.toContainText("burnt between 2 and 3");
  await expect(photo).toHaveCount(0);
  expect((await page.request.get(address)).status()).toBe(404);
});

test("a photo that is no image is not kept", async ({ page }) => {
  await giveName(page);
  await page.goto("/units/V-102/record");
  const desk = page.getByRole("region", { name: "Photos of repairs" });
  // Chromium complains of a refused request in its console, so a program asks here.
  const repair = new URLSearchParams({ by: "R. Ames", unit: "V-102", scope: "top-end", name: "page.png" });
  const post = (more: Record<string, string>, data: string) =>
    page.request.post(`/api/photos?${repair.toString()}&${new URLSearchParams(more).toString()}`, { data });
  const refused = await post({ date: "2026-01-01", cylinders: "4" }, "<html><script>alert(1)</script></html>");
  expect(refused.status()).toBe(415);
  expect(await refused.json()).toEqual({ error: "This is no JPEG, PNG or WebP image, so it was not kept." });
  expect((await post({ date: "2026-02-30", cylinders: "4" }, "")).status()).toBe(400);
  await desk.locator("input[type=file]").setInputFiles({ name: "seat.png", mimeType: "image/png", buffer: png });
  await desk.getByRole("button", { name: "Add the photos" }).click();
  await expect(desk.getByRole("img", { name: /seat\.png/ })).toBeVisible();
  await desk.getByRole("button", { name: /Take away seat\.png/ }).click();
  await expect(desk.getByRole("img", { name: /seat\.png/ })).toHaveCount(0);
});

test("an engine goes from one unit to another, and its wear with it", async ({ page }) => {
  await giveName(page);
  await page.goto("/units/H-304/record?what=engine");
  await page.getByLabel("The engine comes").selectOption("unit");
  await page.getByLabel("Meter of H-304, km").fill("900000");
  await page.getByRole("textbox", { name: "Unit", exact: true }).fill("H-305");
  await look(page);
  await expect(page.getByText("Give what the other unit’s meter showed.")).toBeVisible();
  await page.getByLabel("Its meter on that day").fill("900000");
  const out = page.getByLabel("Number of the engine that goes out");
  if (await out.isVisible()) await out.fill("QD6-TEST");
  await look(page);
  await expect(page.getByText("Engine of H-304")).toBeVisible(slowly);
  await expect(page.getByText("Engine of H-305")).toBeVisible();
  await expectAccessible(page);
  await keep(page);
  await kept(page);
  const id = importKept(page);
  await page.goto("/units/H-304");
  await expect(page.getByRole("region", { name: "Engines in this unit" })).toContainText("QD6-4315");
  await page.goto("/engines/QD6-4315");
  await expect(finding(page)).toContainText("is in H-304");
  await undoImport(page.request, id);
});

test("a meter is read, and a new one fitted", async ({ page }) => {
  await giveName(page);
  await page.goto("/units/V-109/record?what=meter");
  await page.getByLabel("Meter, km").fill("400000");
  await keep(page);
  await kept(page);
  const read = importKept(page);
  await page.getByRole("link", { name: "New meter" }).click();
  await page.getByLabel("The old one showed, km").fill("400100");
  await page.getByLabel("The new one showed, km").fill("12");
  await look(page);
  await expect(page.getByText("400,100 km")).toBeVisible(slowly);
  await keep(page);
  await kept(page);
  const replaced = importKept(page);
  await page.goto("/units/V-109");
  await expect(page.locator(".unit-facts")).toContainText("12 km");
  for (const id of [replaced, read]) await undoImport(page.request, id);
});

test("a unit is stopped and released, with who and why", async ({ page }) => {
  await giveName(page);
  await page.goto("/units/V-110/record?what=status");
  await page.getByRole("combobox", { name: "From now on" }).selectOption("stopped");
  await look(page);
  await expect(page.getByText("Say why: whoever plans the next repair will ask.")).toBeVisible();
  await page.getByRole("textbox", { name: "Why" }).fill("gearbox out");
  await look(page);
  await keep(page);
  await kept(page);
  await expect(page.getByRole("region", { name: "Status of V-110" })).toContainText("gearbox out");
  await page.goto("/units/V-110");
  await expect(page.locator(".status-note")).toContainText("by R. Ames");
  await expect(page.locator(".status-note")).toContainText("gearbox out");
  await page.goto("/units/V-110/record?what=status");
  await page.getByRole("combobox", { name: "From now on" }).selectOption("in-service");
  await page.getByRole("textbox", { name: "Why" }).fill("gearbox in, road test made");
  await look(page);
  await keep(page);
  await kept(page);
  await page.goto("/units/V-110");
  await expect(page.locator(".status-note")).toHaveCount(0);
});

test("a unit is planned to leave the fleet, in the list of who told it, and on its page", async ({ page }) => {
  await giveName(page);
  await page.goto("/units/V-110/record?what=disposal");
  await page.getByLabel("Leaves the fleet on").fill("2020-01-01");
  await look(page);
  await expect(page.getByText(/^The day has gone by\./)).toBeVisible();
  await page.getByLabel("Leaves the fleet on").fill("2027-03-31");
  await look(page);
  await keep(page);
  await kept(page);
  const history = page.getByRole("region", { name: "Planned disposal of V-110" });
  await expect(history).toContainText("R. Ames");
  await undoImport(page.request, importKept(page));
  await page.reload();
  await expect(history).toContainText("undone by");
});

test("a test of another day, counted from the other end, is told again; the old one stays and all is undone as one", async ({
  page,
}) => {
  await giveName(page);
  await page.goto("/units/V-109");
  const tests = page.locator("#tests");
  const link = tests
    .getByRole("row")
    .nth(1)
    .getByRole("link", { name: /^Judge or correct/ });
  await link.click();
  const correct = page.getByRole("region", { name: "Correct it" });
  const history = page.getByRole("region", { name: "History", exact: true });
  const values = () =>
    correct
      .getByLabel(/^Reading \d+: (Cylinder|Value)$/)
      .evaluateAll((fields) => fields.map((field) => (field as HTMLInputElement).value));
  await expect(correct.getByLabel("Reading 4: Value")).toBeVisible();
  const old = page.url();
  const before = await values();
  await correct.getByRole("button", { name: "Count cylinders from the other end" }).click();
  expect(await values()).toEqual(before.map((value, i) => (i % 2 === 0 ? String(5 - Number(value)) : value)));
  await correct.getByLabel("Day", { exact: true }).fill("2026-08-29");
  await correct.getByLabel("Engine warm").selectOption("no");
  const see = correct.getByRole("button", { name: "See what it changes" });
  await see.click();
  await expect(correct.getByText("Say why: it is kept and shown with the test.")).toBeVisible();
  await correct.getByRole("textbox", { name: "Why" }).fill("written up a day late");
  await expectAccessible(page);
  await expectToFit(page);
  await see.click();
  await expect(correct.getByText(/^date: /)).toBeVisible(slowly);
  await keep(page);
  await expect(history).toContainText("written up a day late", slowly);
  await expect(finding(page)).toContainText("29 Aug 2026");
  await expect(history).toContainText(/date: .* to 29 Aug 2026; .*cylinder 1: /);
  const importId = importKept(page);

  // The old one is named with what became of it, and leads to the new one; nothing of it is drawn or counted.
  await page.goto("/units/V-109");
  const withdrawn = page.getByRole("region", { name: "Withdrawn tests" });
  await expect(withdrawn).toContainText("withdrawn by R. Ames");
  await expect(withdrawn).toContainText("told again as");
  await expect(tests.getByRole("row").nth(1)).toContainText("29 Aug 2026");
  await withdrawn.getByRole("link").click();
  await expect(page.getByText("Nothing of it counts.")).toBeVisible();
  await expect(correct).toHaveCount(0);
  await expectToFit(page);
  await expectAccessible(page);
  await page.getByRole("link", { name: "See it as it was told again" }).click();
  await expect(finding(page)).toContainText("29 Aug 2026");

  await undoImport(page.request, importId);
  await page.reload();
  await expect(finding(page)).toContainText("is not on file");
  await page.goto(old);
  await expect(history).toContainText("undone by R. Ames");
  await expect.poll(values).toEqual(before);
});

test("the browser asks before something typed is lost, on records and corrections, and not once it is kept", async ({
  page,
}) => {
  await giveName(page);
  const asked: string[] = [];
  page.on("dialog", (dialog) => {
    asked.push(dialog.type());
    return dialog.accept();
  });
  await page.goto("/units/V-109/record?what=repair");
  const remarks = page.getByRole("textbox", { name: "Remarks" });
  await remarks.click();
  await page.reload();
  expect(asked, "nothing was typed").toEqual([]);
  // Browsers ask only where somebody used the page.
  await remarks.click();
  await remarks.fill("burnt");
  await page.reload();
  expect(asked).toEqual(["beforeunload"]);
  await expect(remarks).toHaveValue("");

  await page.goto("/units/V-109");
  await page
    .locator("#tests")
    .getByRole("link", { name: /^Judge or correct/ })
    .first()
    .click();
  const why = page.getByRole("region", { name: "Correct it" }).getByRole("textbox", { name: "Why" });
  await why.click();
  await why.fill("misread");
  await page.reload();
  expect(asked).toHaveLength(2);

  await page.goto("/units/V-109/record?what=meter");
  const meter = page.getByLabel("Meter, km");
  await meter.click();
  await meter.fill("400000");
  await keep(page);
  await kept(page);
  const id = importKept(page);
  await page.getByRole("heading").first().click();
  await page.reload();
  expect(asked, "what was typed is kept").toHaveLength(2);
  await undoImport(page.request, id);
});

test("other evidence is kept, and a test is set aside, accepted, corrected, each with its history and undo", async ({
  page,
}) => {
  await giveName(page);
  await page.goto("/units/V-109/record?what=check");
  await page.getByRole("combobox", { name: "Check", exact: true }).selectOption("combustion-gas-in-coolant");
  await page.getByRole("combobox", { name: "Result" }).selectOption("fault");
  await page.getByLabel("What the fault is").selectOption("head-gasket");
  await keep(page);
  await kept(page);
  await undoImport(page.request, importKept(page));

  await page.goto("/units/V-109");
  const tests = page.locator("#tests");
  const row = tests.getByRole("row").nth(1);
  const before = await row.textContent();
  await row.getByRole("link", { name: /^Judge or correct/ }).click();
  await expect(finding(page)).toContainText("of V-109");
  await expectToFit(page);
  await expectAccessible(page);
  const judge = page.getByRole("region", { name: "Judge it" });
  const correct = page.getByRole("region", { name: "Correct it" });
  const history = page.getByRole("region", { name: "History", exact: true });
  const address = page.url();

  await judge.getByLabel("Judgement").selectOption("set-aside");
  await judge.getByRole("button", { name: "See what it changes" }).click();
  await expect(judge.getByText("Say why: it is kept and shown with the test.")).toBeVisible();
  await judge.getByRole("textbox", { name: "Why" }).fill("hose leaked");
  await judge.getByRole("button", { name: "See what it changes" }).click();
  await keep(page);
  await kept(page);
  await expect(page.getByText("set aside by R. Ames: hose leaked")).toBeVisible();
  await expect(history).toContainText("The test set aside");
  const aside = importKept(page);

  await judge.getByLabel("Judgement").selectOption("accepted");
  await judge.getByRole("textbox", { name: "Why" }).fill("hose was changed before");
  await judge.getByRole("button", { name: "See what it changes" }).click();
  await keep(page);
  await expect(history).toContainText("The test accepted", slowly);
  const accepted = await keptAfter(page, aside);

  const first = correct.getByLabel("Reading 1: Value");
  const was = await first.inputValue();
  await first.fill("11");
  await correct.getByRole("textbox", { name: "Why" }).fill("read from the wrong scale");
  await correct.getByRole("button", { name: "See what it changes" }).click();
  await keep(page);
  await expect(history).toContainText("read from the wrong scale", slowly);
  await expect(history).toContainText(new RegExp(`cylinder 1: ${was}.* to 11`));
  const corrected = await keptAfter(page, accepted);
  const file = await history.getByRole("link", { name: /^Download CSV/ }).getAttribute("href");
  const rows = await (await page.request.get(file ?? "", { headers: { connection: "close" } })).text();
  expect(rows).toContain("read from the wrong scale");
  expect(rows).toContain("hose leaked");
  await expectAccessible(page);

  await page.goto("/units/V-109");
  await expect(row).toContainText("read from the wrong scale");
  await expect(row).toContainText("Accepted by R. Ames, counts in full");
  await expect(row).not.toContainText("counts less");
  for (const id of [corrected, accepted, aside]) await undoImport(page.request, id);
  await page.goto(address);
  await expect(history).toContainText("undone by R. Ames");
  await expect(first).toHaveValue(was);
  await page.goto("/units/V-109");
  expect((await row.textContent())?.slice(0, 60)).toBe(before?.slice(0, 60));
});

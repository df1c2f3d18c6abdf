import { expect } from "@playwright/test";
import { importFiles, withEmptyStore } from "./demo-fleet.ts";
import { expectAccessible, finding, giveName, test } from "./page-checks.ts";

test.describe.configure({ mode: "serial" });
withEmptyStore();

const header = "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit";
const leakages = [9.5, 11, 12.5, 10];
const testOn = (date: string, meter: number, unit = "V-104") =>
  leakages.map((value, i) => `${unit},petrol-4-a,${date},${meter},km,leak-down,${i + 1},${value + meter / 1e5},%`);
const csv = (...tests: readonly string[][]) => `${[header, ...tests.flat()].join("\n")}\n`;
const models = JSON.stringify({
  schemaVersion: 1,
  engineModels: [{ id: "petrol-4-a", cylinders: 4, leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 } }],
});

test("what rows may have meant is taken by one click, and the import waits anew", async ({ page, request }) => {
  test.slow();
  const known = csv(testOn("2025-01-10", 41_000), testOn("2025-05-10", 43_100), testOn("2025-09-10", 45_000));
  await importFiles(request, { "models.json": models, "known.csv": known });
  await page.goto("/import");
  await giveName(page);
  const late = csv(testOn("2026-01-10", 42_670), testOn("2026-02-10", 46_950, "V-0104"));
  await page
    .locator("main input[type=file]")
    .setInputFiles({ name: "late.csv", mimeType: "text/csv", buffer: Buffer.from(late) });
  await page.waitForURL(/\/import\/.+/);
  await expect(finding(page)).toContainText("four refused");
  await expectAccessible(page);
  const first = page.url();

  const refused = page.getByRole("region", { name: /^Refused/ });
  const offer = refused.getByRole("button", { name: "Read the meter as 46,270 km" });
  await expect(offer).toHaveCount(1);
  await offer.click();
  await expect(refused).toHaveCount(0);
  expect(page.url()).not.toBe(first);

  const warned = page.getByRole("region", { name: /^Taken with a warning/ });
  await expect(warned).toContainText('the unit "V-0104" is new, but differs from the known unit "V-104"');
  await page.setViewportSize({ width: 390, height: 844 });
  await expectAccessible(page);
  const second = page.url();
  await warned.getByRole("button", { name: "Read the unit as V-104" }).click();
  await expect(warned).toHaveCount(0);
  expect(page.url()).not.toBe(second);
  await expect(finding(page)).toContainText("Eight new rows");
  await page.getByRole("button", { name: "Commit" }).click();
  await expect(page.getByRole("button", { name: "Undo this import" })).toBeVisible();
  await page.goto(first);
  await expect(finding(page)).toContainText("This import is not known");
});

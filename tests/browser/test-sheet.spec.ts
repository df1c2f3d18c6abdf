import { expect, type Page } from "@playwright/test";
import { undoImport, withDemoFleet } from "./demo-fleet.ts";
import { expectAccessible, expectToFit, finding, giveName, test } from "./page-checks.ts";

withDemoFleet();
test.slow();

const unit = "V-104";
const phone = { width: 390, height: 844 };

const button = (page: Page, name: string | RegExp) => page.locator("main").getByRole("button", { name, exact: true });
const question = (page: Page, name: string) => page.getByRole("group", { name });

/** Every step is looked at on a phone, on a desk and in both themes, and has targets for a thumb. */
async function lookAt(page: Page): Promise<void> {
  await page.setViewportSize(phone);
  const small = await page.locator("main button.tap").evaluateAll((buttons) =>
    buttons.flatMap((each) => {
      const { width, height } = each.getBoundingClientRect();
      return width < 44 || height < 44 ? [each.textContent] : [];
    }),
  );
  expect(small, "buttons too small for a thumb").toEqual([]);
  await expectToFit(page);
  await expectAccessible(page);
  await page.setViewportSize(phone);
}

async function begin(page: Page, name: string): Promise<void> {
  await giveName(page);
  await page.setViewportSize(phone);
  await page.goto(`/units/${unit}`);
  await page.getByRole("link", { name: "Enter a test" }).click();
  await expect(finding(page)).toContainText(`Enter a test of ${unit}`);
  await button(page, name).click();
}

async function measure(page: Page, cylinder: number, value: string): Promise<void> {
  await button(page, new RegExp(`^Cylinder ${cylinder}`)).click();
  await page.getByLabel("Final reading, kPa").fill(value);
  await button(page, "Keep this reading").click();
}

/** The meter as the page expects it, so that the row is taken. */
async function expectedMeter(page: Page): Promise<string> {
  const about = await page.getByText(/^As the meter shows it; about/).textContent();
  return /about ([\d,]+)/.exec(about ?? "")?.[1]?.replaceAll(",", "") ?? "";
}

test("a test from its set-up to its result: one far value is asked about, the connection is lost, it is sent once", async ({
  page,
  context,
}) => {
  await begin(page, "Compression");
  await expect(page.getByRole("heading", { name: "Compression: set-up" })).toBeVisible();
  await expect(page.getByText("Before anyone tests.")).toBeVisible();
  await lookAt(page);
  await question(page, "Engine warm").getByRole("button", { name: "Yes" }).click();
  await question(page, "All plugs out").getByRole("button", { name: "No" }).click();
  await question(page, "All plugs out").getByRole("button", { name: "Yes" }).click();
  await page.getByLabel("Cranking speed, 1/min").fill("210");
  await button(page, "To the cylinders").click();

  // The last cylinder first: the order is the mechanic's.
  await measure(page, 4, "1150");
  await expect(page.getByText("Cylinder 4: 1,150 kPa, on this device.")).toBeVisible();
  await measure(page, 2, "620");
  const asked = page.getByRole("alert").filter({ hasText: "Far from the last test" });
  await expect(asked).toContainText(/\(1,\d{3} to 620\skPa\): check the adaptor and measure again\./);
  await lookAt(page);

  // A reload in the middle of a question loses nothing.
  await page.reload();
  await expect(page.getByLabel("Final reading, kPa")).toHaveValue("620");
  await expect(asked).toBeVisible();
  await button(page, "It reads so: keep it").click();
  await measure(page, 2, "1140");
  await measure(page, 1, "165");
  await expect(page.getByText(/only if the gauge reads in psi/)).toBeVisible();

  // From here on without a connection.
  await context.setOffline(true);
  await expect(page.getByText("No connection: go on, it is sent later")).toBeVisible();
  await button(page, "Measure again").click();
  await page.getByLabel("Final reading, kPa").fill("1148");
  await page.getByLabel("First stroke, kPa").fill("800");
  await button(page, "Keep this reading").click();
  await measure(page, 3, "1152");
  await expect(page.getByRole("list", { name: "Readings in the order of testing" }).getByRole("listitem")).toHaveCount(
    5,
  );
  await lookAt(page);
  await button(page, "To the end").click();
  await button(page, "Send test").click();
  await expect(page.getByText("Write what the meter reads.")).toBeVisible();
  await lookAt(page);
  await expect(page.getByText("not confirmed")).toHaveCount(3);
  await page.getByLabel(/^Meter, km/).fill(await expectedMeter(page));
  await page.getByLabel("Notes of the whole test").fill("Starter turned slowly at first.");
  await button(page, "Send test").click();
  await expect(page.getByRole("heading", { name: "Compression: waits to be sent" })).toBeFocused();
  await expect(page.getByText("finished, not sent yet")).toBeVisible();
  await lookAt(page);

  const sent: string[] = [];
  page.on("request", (request) => {
    if (request.url().endsWith("/api/test-sheets")) sent.push(request.postData() ?? "");
  });
  await context.setOffline(false);
  await expect(page.getByRole("heading", { name: "Sent, and the unit assessed anew" })).toBeVisible();
  expect(sent).toHaveLength(1);
  await expect(page.getByRole("heading", { name: "What changed" })).toBeVisible();
  await expect(page.getByText(/new compression test/i)).toBeVisible();
  await lookAt(page);

  // Sent again, as after a lost answer, it adds nothing.
  const again = await page.request.post("/api/test-sheets", {
    params: { by: "R. Ames" },
    headers: { "content-type": "application/json" },
    data: sent[0] ?? "",
  });
  expect(again.status()).toBe(200);
  expect(await again.json()).toMatchObject({ wasThere: true });

  const result = page.url();
  await page.getByRole("link", { name: `Open ${unit}` }).click();
  const tests = page.getByRole("region", { name: new RegExp(`^Tests of ${unit}`) });
  await expect(tests).toContainText("1,148");
  await expect(tests).toContainText("Starter turned slowly at first.");
  await expect(tests).toContainText("battery supported: not confirmed");

  await page.goto(result);
  await page.getByRole("link", { name: "Take it back" }).click();
  await page.getByRole("button", { name: "Undo this change" }).click();
  await page.getByRole("dialog").getByRole("button", { name: /undo/i }).click();
  await expect(finding(page)).toContainText("what stood before this change stands again", { timeout: 60_000 });
  await page.goto(result);
  await expect(page.getByRole("heading", { name: "This test was taken back" })).toBeVisible();
  await page.goto(`/units/${unit}`);
  await expect(page.locator("main")).not.toContainText("Starter turned slowly at first.");
});

test("what the server does not take stays on the device and can be put right", async ({ page }) => {
  await begin(page, "Leak-down");
  await question(page, "Crankshaft held").getByRole("button", { name: "Yes" }).click();
  await button(page, "To the cylinders").click();
  await button(page, /^Cylinder 3/).click();
  await page.getByLabel("Lost, %").fill("104");
  await button(page, "Keep this reading").click();
  await expect(page.getByText(/104\s% is not a leakage/)).toBeVisible();
  await page.getByLabel("Lost, %").fill("18");
  await button(page, "Crankcase").click();
  await button(page, "Exhaust").click();
  await lookAt(page);
  await button(page, "Keep this reading").click();
  await expect(page.getByText("heard: crankcase, exhaust")).toBeVisible();
  await button(page, "To the end").click();
  await page.getByLabel(/^Meter, km/).fill("12");
  await button(page, "Send test").click();
  await expect(page.getByRole("alert").filter({ hasText: "Nothing was kept" })).toBeVisible();
  await lookAt(page);
  await page.reload();
  await expect(page.getByRole("heading", { name: "Leak-down: end" })).toBeVisible();
  await page.getByLabel(/^Meter, km/).fill(await expectedMeter(page));
  await button(page, "Throw away").click();
  await expect(page.getByText("nothing brings it back")).toBeVisible();
  await lookAt(page);
  await button(page, "Keep it").click();
  await button(page, "Send test").click();
  await expect(page.getByRole("heading", { name: "Sent, and the unit assessed anew" })).toBeVisible();
});

test("a figure of the set-up that cannot be read is named as its step is left, and the end leads back to it", async ({
  page,
}) => {
  await begin(page, "Compression");
  const speed = page.getByLabel("Cranking speed, 1/min");
  await speed.fill("2oo");
  await button(page, "To the cylinders").click();
  await expect(speed).toBeFocused();
  await expect(speed).toHaveAttribute("aria-invalid", "true");
  await expect(page.getByText("Write a figure, such as 1150 or 12.5.")).toBeVisible();
  await lookAt(page);
  await speed.fill("200");
  await button(page, "To the cylinders").click();
  await measure(page, 4, "1150");
  await button(page, "To the end").click();
  await page.getByLabel(/^Meter, km/).fill(await expectedMeter(page));
  // As an older page may have kept it.
  await page.evaluate(() => {
    for (const [key, text] of Object.entries(localStorage)) {
      localStorage.setItem(key, text.replace('"crankingRpm":"200"', '"crankingRpm":"2oo"'));
    }
  });
  await page.reload();
  await button(page, "Send test").click();
  await expect(page.getByText("Cranking speed: Write a figure, such as 1150 or 12.5.")).toBeVisible();
  await lookAt(page);
  await button(page, "Put it right in the set-up").click();
  await expect(speed).toBeFocused();
  await expect(speed).toHaveAttribute("aria-invalid", "true");
  await button(page, "Throw away").click();
  await page.getByRole("alert").getByRole("button", { name: "Throw away" }).click();
});

test("nobody goes on from the set-up while fuel and ignition are told as live", async ({ page }) => {
  await begin(page, "Compression");
  const fuel = question(page, "Fuel and ignition disabled");
  const stop = page.getByRole("alert").filter({ hasText: "Stop." });
  await fuel.getByRole("button", { name: "No" }).click();
  await expect(stop).toContainText("Nobody cranks or turns an engine whose fuel and ignition are live.");
  await button(page, "To the cylinders").click();
  await expect(stop).toBeFocused();
  await expect(stop).toContainText("answered with no");
  await lookAt(page);
  await fuel.getByRole("button", { name: "Yes" }).click();
  await expect(stop).toHaveCount(0);
  await fuel.getByRole("button", { name: "No" }).click();
  await stop.getByRole("button", { name: "Leave it not confirmed" }).click();
  await expect(fuel.getByRole("button", { name: "Yes" })).toBeFocused();
  await button(page, "To the cylinders").click();
  await expect(page.getByRole("heading", { name: "Compression: cylinders" })).toBeVisible();
  await button(page, "Throw away").click();
  await page.getByRole("alert").getByRole("button", { name: "Throw away" }).click();
});

test("two pages of one test say so, and neither takes from the other what it kept", async ({ page, context }) => {
  await begin(page, "Compression");
  await button(page, "To the cylinders").click();
  const says = (of: Page) => of.getByText("This test is open in another page of this browser too.");
  await expect(says(page)).toHaveCount(0);
  const other = await context.newPage();
  await other.goto(`/units/${unit}/test`);
  for (const each of [page, other]) await expect(says(each)).toBeVisible();
  await lookAt(other);
  await measure(page, 4, "1150");
  await measure(other, 2, "1140");
  await measure(page, 1, "1145");
  for (const each of [page, other]) {
    const readings = each.getByRole("list", { name: "Readings in the order of testing" }).getByRole("listitem");
    await expect(readings).toHaveText([/1,150/, /1,140/, /1,145/]);
  }
  await other.close();
  await expect(says(page)).toHaveCount(0);
  await page.reload();
  await expect(button(page, /^Cylinder 2/)).toContainText("1,140");
  await button(page, "Throw away").click();
  await page.getByRole("alert").getByRole("button", { name: "Throw away" }).click();
});

test("a sheet that arrived although no answer came is not given back to be changed when a later sending is refused", async ({
  page,
}) => {
  await begin(page, "Compression");
  await button(page, "To the cylinders").click();
  await measure(page, 4, "1150");
  await button(page, "To the end").click();
  await page.getByLabel(/^Meter, km/).fill(await expectedMeter(page));
  let sendings = 0;
  await page.route("**/api/test-sheets", async (route) => {
    sendings += 1;
    if (sendings > 1) return route.fulfill({ status: 422, json: { error: "Say who does it." } });
    await route.fetch();
    return route.abort("internetdisconnected");
  });
  await button(page, "Send test").click();
  await expect(page.getByText("It may have arrived although no answer came")).toBeVisible();
  await expect(button(page, "Change it first")).toHaveCount(0);
  await lookAt(page);
  await button(page, "Send now").click();
  await expect(page.getByRole("heading", { name: "Sent, and the unit assessed anew" })).toBeVisible();
  expect(sendings).toBe(2);
  await undoImport(page.request, new URL(page.url()).searchParams.get("sent") ?? "");
});

test("a diesel is offered no wet test, and has no throttle to open", async ({ page }) => {
  await giveName(page);
  await page.goto("/units/L-203/test");
  await expect(button(page, "Compression")).toBeVisible();
  await expect(button(page, "Wet compression")).toHaveCount(0);
  await expect(page.getByText("oil can lock a diesel")).toBeVisible();
  await button(page, "Compression").click();
  await expect(question(page, "All glow plugs or injectors out")).toBeVisible();
  await expect(question(page, "Throttle and choke wide open")).toHaveCount(0);
  await page.goto("/units/P-401/test");
  await expect(button(page, "Wet compression")).toBeVisible();
});

for (const format of ["A4", "Letter"] as const) {
  test(`sheets for paper take one page of ${format} for each unit or test, with cautions on each`, async ({ page }) => {
    for (const [address, sheets] of [
      [`/units/${unit}/test/paper`, 1],
      ["/units/P-401/test/paper", 2],
      ["/units/H-301/test/paper", 1],
    ] as const) {
      await page.goto(address);
      await expect(page.locator(".paper-sheet")).toHaveCount(sheets);
      await expect(page.getByText("Before anyone tests.")).toHaveCount(sheets);
      const pdf = (await page.pdf({ format, preferCSSPageSize: false })).toString("latin1");
      expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length, address).toBe(sheets);
    }
    await page.goto("/depots/Lowmarsh");
    await page.getByRole("link", { name: "Test sheets for paper" }).click();
    await page.getByRole("link", { name: "Within 13 weeks" }).click();
    await expect(finding(page)).toContainText("to be tested by");
    await expect(page.getByText("Before anyone tests.").first()).toBeVisible();
  });
}

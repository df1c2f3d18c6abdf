import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { planDocumentSchema, waitDocumentSchema } from "../../lib/schema/plan-document.ts";
import { borecast, buildCommand, folderWith } from "./command.ts";
import { demoArguments, demoFile } from "./demo-arguments.ts";

beforeAll(buildCommand);

const workshop = JSON.parse(readFileSync(demoFile("workshop.json"), "utf8")) as Record<string, unknown>;

const plan = (files: Readonly<Record<string, string>>, ...more: readonly string[]) =>
  borecast(folderWith(files), ["plan", ...demoArguments, ...more]);

describe("borecast plan", () => {
  it("puts the demo's two heavy trucks into Highcol's one bay, both before it closes, as one document", async () => {
    const { output, status, errors } = await plan({}, "--workshop", demoFile("workshop.json"), "--json");
    // The demo has one row that is refused on purpose.
    expect(status).toBe(1);
    expect(errors).toContain("meters.csv, line");
    const document = planDocumentSchema.parse(JSON.parse(output));
    const highcol = document.bookings.filter(({ depot }) => depot === "Highcol");
    expect(highcol.map(({ unit, scope }) => `${unit} ${scope}`)).toEqual(
      expect.arrayContaining(["H-301 bottom-end", "H-304 top-end"]),
    );
    for (const { start, bayFreeFrom } of highcol.filter(({ unit }) => unit.startsWith("H-"))) {
      expect(start >= document.firstWeek).toBe(true);
      // Weeks 46 to 8 are closed.
      expect(bayFreeFrom <= "2026-11-09").toBe(true);
    }
    for (const { used, has } of document.load.flatMap(({ bayDays, hours }) => [bayDays, hours]))
      expect(used).toBeLessThanOrEqual(has + 1e-6);
    for (const { cost } of document.bookings)
      expect(cost.work + cost.downtime + cost.early + cost.late).toBe(cost.total);
    expect(document.cost).toBeLessThanOrEqual(document.firstComeCost);
    expect(document.provenWithin).toBeLessThanOrEqual(0.001);
    expect(document.leftOut).toContainEqual({ unit: "H-306", why: "too-few-tests" });
  });

  it("tells by how much pins take more than there is, as tables", async () => {
    const pins = ["H-301", "H-304"].map((unit) => ({ unit, scope: "bottom-end", date: "2026-10-05" }));
    const file = JSON.stringify({
      ...workshop,
      pins: [...pins, { unit: "H-999", scope: "top-end", date: "2026-10-05" }],
    });
    const { output, status, errors } = await plan({ "w.json": file }, "--workshop", "w.json");
    expect(status).toBe(1);
    expect(errors).toContain("Pins take 10 bay days at Highcol in week 41, which has 5: move one, or find 5 more.");
    expect(errors).toContain("The pin of H-999, top-end, in 2026-W41 can't be kept");
    expect(output).toContain("H-301 (pinned)");
    expect(output).toContain("first come, first served saves");
    expect(output).toContain("test them first: H-306.");
  });

  it("tells what each week costs and risks of one unit that may wait", async () => {
    const { output, status } = await plan({}, "--workshop", demoFile("workshop.json"), "--wait", "H-304", "--json");
    expect(status).toBe(1);
    const { unit, weeks } = waitDocumentSchema.parse(JSON.parse(output));
    expect(unit).toBe("H-304");
    const topEnd = weeks.filter(({ scope }) => scope === "top-end");
    // Highcol is closed in weeks 46 to 8.
    expect(topEnd.map(({ week }) => week)).not.toContain("2026-W50");
    expect(Math.min(...topEnd.map(({ extra }) => extra))).toBe(0);
    expect(topEnd.at(-1)?.failed).toBeGreaterThan(topEnd[0]?.failed as number);
  });

  it("refuses a workshop that can't be used, and says where", async () => {
    const bad = await plan({ "w.json": '{ "planWeeks": 3 }' }, "--workshop", "w.json");
    expect(bad).toMatchObject({ status: 2, output: "" });
    expect(bad.errors).toContain("w.json is not usable: planWeeks:");
    const slip = await plan({ "w.json": '{ "planWeek": 52 }' }, "--workshop", "w.json");
    expect(slip).toMatchObject({ status: 2, output: "" });
    expect(slip.errors).toMatch(/w\.json is not usable: .*planWeek/);
    const text = await plan({ "w.json": "{" }, "--workshop", "w.json");
    expect(text.errors).toContain("w.json is not usable: it is not JSON");
    const missing = await plan({}, "--workshop", "none.json");
    expect(missing.errors).toContain("There is no file none.json");
    const seconds = await plan({}, "--seconds", "0");
    expect(seconds.errors).toContain("--seconds 0 is not possible");
  });
});

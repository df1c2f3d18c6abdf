import { describe, expect, test as it } from "vitest";
import { changedRows } from "@/db/changed-rows.ts";
import { meterReading, model, reading, repair, stage, take, temporaryStore, test, unit } from "./made-up.ts";

const all = { offset: 0, limit: 100 };

describe("what a staged import would change", () => {
  it("nothing, while nothing is known", async () => {
    const store = await temporaryStore();
    const { importId } = await stage(store, { tests: [test()], units: [unit()] });
    expect(await changedRows(store, importId, all)).toEqual({ things: [], total: 0 });
  });

  it("a reading and its test, old beside new, with the line; cells left blank change nothing", async () => {
    const store = await temporaryStore();
    await take(store, {
      tests: [test({ warm: true, readings: [reading(1, 1200, { remarks: "hiss" }), reading(2, 1190)] })],
    });
    const { importId } = await stage(store, {
      tests: [
        test({ file: "again.csv", warm: false, readings: [reading(1, 1150), reading(2, 1190), reading(3, 1100)] }),
      ],
    });
    expect(await changedRows(store, importId, all)).toEqual({
      total: 1,
      things: [
        {
          kind: "tests",
          subject: "V-1",
          about: ["2026-03-01", "compression-dry", 1, null],
          file: "again.csv",
          line: 2,
          changes: [
            { column: "warm", cylinder: null, before: true, after: false },
            { column: "value", cylinder: 1, before: 1200, after: 1150, unit: "kPa" },
          ],
        },
      ],
    });
  });

  it("facts of one line, by kind", async () => {
    const store = await temporaryStore();
    const models = { file: "models.json", models: [model()] };
    await take(store, {
      units: [unit({ depot: "Lowmarsh" })],
      repairs: [repair()],
      meterReadings: [meterReading()],
      models,
    });
    const changed = model({ compression: { newKpa: 1250, minimumKpa: 880, spreadRule: "of-highest" } });
    const { importId } = await stage(store, {
      units: [unit({ depot: "Highcol" })],
      repairs: [repair({ cost: 900 })],
      meterReadings: [meterReading({ meter: 810 })],
      models: { file: "models.json", models: [changed] },
    });
    const { things, total } = await changedRows(store, importId, all);
    expect(total).toBe(4);
    expect(things.map(({ kind, about, changes }) => [kind, about, changes])).toEqual([
      ["units", [], [{ column: "depot", cylinder: null, before: "Lowmarsh", after: "Highcol" }]],
      ["repairs", ["2026-02-01", "top-end", "all"], [{ column: "cost", cylinder: null, before: null, after: 900 }]],
      ["meterReadings", ["2026-01-01", "no"], [{ column: "meter", cylinder: null, before: 800, after: 810 }]],
      ["models", [], [{ column: "model", cylinder: null, before: model(), after: changed }]],
    ]);
  });

  it("page by page over all kinds, none twice and none left out", async () => {
    const store = await temporaryStore();
    const names = ["V-1", "V-2", "V-3"];
    const told = (value: number, depot: string) => ({
      tests: names.map((name) => test({ unit: name, readings: [reading(1, value)] })),
      units: names.map((name) => unit({ unit: name, depot })),
    });
    await take(store, told(1200, "Lowmarsh"));
    const { importId } = await stage(store, told(1100, "Highcol"));
    const whole = await changedRows(store, importId, all);
    expect(whole.total).toBe(6);
    const pages = [];
    for (let offset = 0; offset < 6; offset += 2) {
      const page = await changedRows(store, importId, { offset, limit: 2 });
      expect(page.total).toBe(6);
      pages.push(...page.things);
    }
    expect(pages).toEqual(whole.things);
    expect((await changedRows(store, importId, { offset: 6, limit: 2 })).things).toEqual([]);
  });
});

import { describe, expect, test } from "vitest";
import {
  cylindersWords,
  intervalWords,
  judgedWords,
  limitsWords,
  modelsFinding,
  repairCostWords,
  spreadWords,
  tiesInWords,
} from "@/app/_ui/models/model-words.ts";
import { engineModelSchema } from "@/lib/schema/engine-model.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const plain = (words: string | null) => words?.replaceAll("\u00a0", " ");
const leakDown = { watchPercent: 10, planPercent: 20, limitPercent: 30 };
const model = (more: object) => engineModelSchema.parse({ id: "x", cylinders: 4, leakDown, ...more });

describe("an engine model in words", () => {
  test("what it is judged on", () => {
    expect(plain(judgedWords(f, model({})))).toBe("Judged on leakage up to 30 %; compression is not judged.");
    const compression = { newKpa: 1250, minimumKpa: 900 };
    expect(plain(judgedWords(f, model({ compression })))).toBe(
      "Judged on leakage up to 30 % and compression down to 900 kPa of 1,250 kPa.",
    );
    expect(plain(judgedWords(f, model({ compression, leakDown: undefined })))).toContain("; leakage is not judged.");
    expect(plain(limitsWords(f, leakDown))).toBe("watch 10 %, plan 20 %, limit 30 %");
  });
  test("how its cylinders stand and which share a bridge", () => {
    expect(cylindersWords({ cylinders: 1, layout: "in-line" })).toBe("1 cylinder");
    expect(cylindersWords({ cylinders: 8, layout: "v" })).toBe("8 cylinders in a V");
    expect(
      tiesInWords({
        cylinders: 4,
        neighbours: [
          [1, 2],
          [2, 3],
        ],
      }),
    ).toContain(": 1–\u20602 and 2–\u20603.");
    expect(tiesInWords({ cylinders: 4, neighbours: [] })).toContain("Separate heads");
    expect(tiesInWords({ cylinders: 1, neighbours: [] })).toBe("A single cylinder.");
  });
  test("the rule on spread, by its own unit", () => {
    const base = { newKpa: 1250, minimumKpa: 900, spreadPercent: 25, spreadKpa: 100 };
    expect(plain(spreadWords(f, { ...base, spreadRule: "of-mean" }))).toBe("up to 25 % below the mean of all");
    expect(plain(spreadWords(f, { ...base, spreadRule: "absolute" }))).toBe("up to 100 kPa below the highest cylinder");
    expect(spreadWords(f, { ...base, spreadPercent: undefined, spreadRule: "of-highest" })).toBeNull();
  });
  test("its interval in the meter of its units, or without one", () => {
    const testInterval = { meter: 30_000, days: 365 };
    expect(plain(intervalWords(f, { testInterval }, "km"))).toBe("every 30,000 km or 365 days");
    expect(plain(intervalWords(f, { testInterval: { meter: 500 } }, null))).toBe("every 500 on the unit’s meter");
    expect(intervalWords(f, {}, "h")).toBeNull();
  });
  test("what a repair costs", () => {
    const repair = { labourHours: 14.5, parts: 900, downtimeDays: 1, unplannedFactor: 1.8 };
    expect(repairCostWords(f, repair)).toBe("14.5\u00a0h, parts 900, 1 day off the road, 1.8 times that unplanned");
    const { unplannedFactor: _, ...both } = { ...repair, machining: 150, bayDays: 2.5, leadDays: 1 };
    expect(repairCostWords(f, both)).toBe(
      "14.5\u00a0h, parts 900, machining 150, 1 day off the road, 2.5 working days in a bay, parts in 1 working day",
    );
  });
  test("how many models there are", () => {
    expect(modelsFinding([model({}), model({ retired: true })], 12)).toBe(
      "One engine model in use, one retired; 12 units.",
    );
    expect(modelsFinding([model({})], 0)).toBe("One engine model in use; no unit yet.");
  });
});

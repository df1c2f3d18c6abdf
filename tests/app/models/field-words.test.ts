import { expect, it } from "vitest";
import { modelFieldWords } from "@/app/_ui/models/field-words.ts";
import { draftOf, readModelDraft } from "@/app/_ui/models/model-draft.ts";
import { figureNames, textNames } from "@/app/_ui/models/model-fields.ts";
import { engineModelSchema } from "@/lib/schema/engine-model.ts";

const work = { labourHours: 1, parts: 2, downtimeDays: 3, machining: 4, bayDays: 5, leadDays: 6 };
/** A model that tells everything there is to tell. */
const whole = engineModelSchema.parse({
  id: "all",
  name: "All",
  fuel: "petrol",
  cylinders: 4,
  neighbours: [[1, 2]],
  layout: "v",
  cooling: "air",
  aircraft: true,
  retired: true,
  compression: {
    newKpa: 1200,
    minimumKpa: 900,
    spreadRule: "absolute",
    spreadPercent: 20,
    spreadKpa: 200,
    referenceRpm: 200,
  },
  leakDown: {
    watchPercent: 10,
    planPercent: 20,
    limitPercent: 30,
    orificeMm: 1,
    supplyKpa: 550,
    valves: { watchPercent: 8, planPercent: 12, limitPercent: 20 },
  },
  repairs: {
    topEnd: { ...work, unplannedFactor: 2 },
    bottomEnd: { ...work, unplannedFactor: 2 },
    both: work,
    exchange: work,
  },
  testInterval: { meter: 1000, days: 365 },
  evidence: {
    "heard-exhaust": { likelihoods: { "exhaust-valve": 0.7, piston: 0.045 }, reason: "long exhaust ports" },
    "check-blow-by-fault": { likelihoods: { "rings-or-bore": 0.9 }, reason: "measured by its maker" },
  },
  causeShares: { shares: { "head-gasket": 0.2, piston: 0.045 }, reason: "long studs" },
});

const paths = (value: unknown, path = ""): string[] =>
  typeof value !== "object" || value === null || Array.isArray(value)
    ? [path]
    : Object.entries(value).flatMap(([key, inner]) => paths(inner, path === "" ? key : `${path}.${key}`));

it("every field of an engine model has words of its own in the history, no name out of the file", () => {
  const told = paths(whole);
  for (const name of [...figureNames, ...textNames]) expect(told).toContain(name);
  const words = told.map(modelFieldWords);
  for (const word of words) expect(word.replace("kPa", "")).not.toMatch(/\w\.\w|[a-z][A-Z]/);
  expect(new Set(words).size).toBe(words.length);
});

it("the form tells all of them and reads them back", () => {
  expect(readModelDraft(draftOf(whole))).toEqual({ ok: true, model: whole, warnings: [] });
});

import { describe, expect, it } from "vitest";
import { readEngineModels } from "@/lib/intake/engine-models.ts";
import { causes } from "@/lib/schema/words.ts";
import { readText } from "./read-text.ts";

const compression = { newKpa: 1250, minimumKpa: 900 };
const good = { id: "a", cylinders: 4, compression };
const fileOf = (...engineModels: readonly unknown[]) => JSON.stringify({ schemaVersion: 1, engineModels });
const read = (text: string) => {
  const { models, issues, fileRefused } = readEngineModels(text, "m.json");
  return {
    ids: models.map((m) => m.id),
    words: issues.map((i) => i.words),
    severities: issues.map((i) => i.severity),
    fileRefused,
  };
};

describe("engine models", () => {
  it("are read with their defaults", () => {
    const { models, issues } = readEngineModels(fileOf(good), "m.json");
    expect(issues).toEqual([]);
    expect(models[0]).toMatchObject({ id: "a", neighbours: [], compression: { spreadRule: "of-highest" } });
  });

  it("keep likelihoods of their own, and name a finding or a cause that is not known", () => {
    const evidence = { "heard-exhaust": { likelihoods: { piston: 0.2 }, reason: "why" } };
    expect(readEngineModels(fileOf({ ...good, evidence }), "m.json").models[0]?.evidence).toEqual(evidence);
    const told = (own: unknown) => read(fileOf({ ...good, evidence: own })).words.join();
    expect(told({ "heard-nothing": evidence["heard-exhaust"] })).toContain("heard-nothing");
    expect(told({ "heard-exhaust": { likelihoods: { pistons: 0.2 }, reason: "why" } })).toContain("pistons");
    expect(told({ "heard-exhaust": { likelihoods: {}, reason: "why" } })).toContain("must name a cause");
  });

  it("keep shares of causes of their own, which must leave the others something or come to 1", () => {
    const of = (causeShares: unknown) => readEngineModels(fileOf({ ...good, causeShares }), "m.json").models[0];
    const told = (causeShares: unknown) => read(fileOf({ ...good, causeShares })).words.join();
    const some = { shares: { piston: 0.2, "head-gasket": 0.7 }, reason: "why" };
    expect(of(some)?.causeShares).toEqual(some);
    const eighths = Object.fromEntries(causes.map((cause) => [cause, 0.125]));
    expect(of({ shares: eighths, reason: "why" })?.causeShares?.shares).toEqual(eighths);
    const sum = "must come to at most 0.99 together, or to 1 where every cause is named";
    expect(told({ shares: { ...eighths, piston: 0.2 }, reason: "why" })).toContain(sum);
    expect(told({ shares: { piston: 0.6, "head-gasket": 0.4 }, reason: "why" })).toContain(sum);
    expect(told({ shares: { pistons: 0.2 }, reason: "why" })).toContain("pistons");
    expect(told({ shares: { piston: 0 }, reason: "why" })).toContain("shares.piston");
    expect(told({ shares: {}, reason: "why" })).toContain("must name a cause");
    expect(told({ shares: { piston: 0.2 }, reason: " " })).toContain("causeShares.reason");
  });

  it.each([
    ["Diesel", "diesel"],
    [" DIESEL OIL ", "diesel"],
    ["biodiesel", "diesel"],
    ["Gas oil", "diesel"],
    ["Petrol", "petrol"],
    ["Gasoline 95", "petrol"],
    ["AVGAS 100LL", "petrol"],
    ["LPG", "lpg"],
    ["Petroleum gas", "petroleum gas"],
  ])("know the fuel %s as %s", (fuel, known) => {
    expect(readEngineModels(fileOf({ ...good, fuel }), "m.json").models[0]?.fuel).toBe(known);
  });

  it("refuse a bore in inches, and warn of one that no tester is likely to have", () => {
    const withBore = (id: string, orificeMm: number) => ({
      ...good,
      id,
      leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30, orificeMm },
    });
    expect(read(fileOf(withBore("a", 0.06), withBore("b", 4), withBore("c", 1.524)))).toEqual({
      ids: ["b", "c"],
      words: [
        "engine model a, leakDown.orificeMm: 0.06 looks like inches: 1.524 mm; write millimetres",
        "engine model b, leakDown.orificeMm: 4 mm is unusual for a restrictor, which has 0.4 to 3.5 mm; taken, but check the unit",
      ],
      severities: ["refused", "warning"],
      fileRefused: false,
    });
  });

  it.each<[string, unknown]>([
    ["engine model a, cylinders: is missing", { id: "a", compression }],
    ["engine model a\u001b, id: must not hold control characters", { ...good, id: "a\u001b" }],
    ["engine model a, cylinders: must be a number", { ...good, cylinders: "4" }],
    ["engine model a, cylinders: must be at most 16", { ...good, cylinders: 17 }],
    ["engine model a, cylinders: must be a whole number", { ...good, cylinders: 4.5 }],
    [
      "engine model a, compression.minimumKpa: minimumKpa must lie below newKpa",
      { ...good, compression: { newKpa: 900, minimumKpa: 900 } },
    ],
    ["engine model a, compression.newKpa: must be above 0", { ...good, compression: { newKpa: 0, minimumKpa: -1 } }],
    ["engine model a, neighbours 1, 2: must be a number", { ...good, neighbours: [[1, "2"]] }],
    [
      "engine model a, leakDown.watchPercent: must be above 0",
      { ...good, leakDown: { watchPercent: 0, planPercent: 20, limitPercent: 30 } },
    ],
    [
      "engine model a, leakDown: watchPercent, planPercent and limitPercent must ascend",
      { ...good, leakDown: { watchPercent: 20, planPercent: 10, limitPercent: 30 } },
    ],
    [
      "engine model a, neighbours: neighbours must be pairs of two different cylinders of the engine",
      { ...good, neighbours: [[1, 9]] },
    ],
    [
      "engine model a: a model needs compression (newKpa, minimumKpa) or leakDown (watchPercent, planPercent, limitPercent)",
      { id: "a", cylinders: 4 },
    ],
    [
      "engine model a, compression.spreadRule: must be of-highest or of-mean or absolute",
      { ...good, compression: { ...compression, spreadRule: "x" } },
    ],
    [
      "engine model a, compression.newKpa: must be at most 10000",
      { ...good, compression: { ...compression, newKpa: 1e300 } },
    ],
    ["engine model a, testInterval.meter: must be at most 10000000", { ...good, testInterval: { meter: 1e300 } }],
    ["engine model number 1, id: is missing", { cylinders: 4, compression }],
  ])("tell by the path of the field: %s", (words, entry) => {
    const { words: told, ids } = read(fileOf(entry));
    expect(told).toContain(words);
    expect(ids).toEqual([]);
  });

  it("count though another one of the file is wrong", () => {
    expect(read(fileOf(good, { id: "b" })).ids).toEqual(["a"]);
  });

  it("are refused where two carry the same id", () => {
    expect(read(fileOf(good, { ...good, id: "b" }, good))).toMatchObject({
      ids: ["b"],
      words: [
        'engine model number 1, id: "a" is also the id of number 3; none of them was taken',
        'engine model number 3, id: "a" is also the id of number 1; none of them was taken',
      ],
    });
  });

  it("have issues that tell by their entry which of them belong to one model", () => {
    const { issues, entries } = readEngineModels(fileOf({ id: "x", cylinders: 0 }, good, { id: "y" }), "m.json");
    expect(entries).toBe(3);
    expect(new Set(issues.map((issue) => issue.entry))).toEqual(new Set(["number 1", "number 3"]));
    expect(issues.length).toBeGreaterThan(2);
  });

  it("mention a field that is not known: a slip would else be a default", () => {
    const { ids, words, severities } = read(fileOf({ ...good, compression: { ...compression, spreadPercnt: 10 } }));
    expect(ids).toEqual(["a"]);
    expect(words).toEqual(["engine model a, compression.spreadPercnt: is not known and was ignored"]);
    expect(severities).toEqual(["mention"]);
  });

  it("tell the line on which the JSON breaks off, and another version or shape", () => {
    expect(read('{\n "schemaVersion": 1,\n oops')).toMatchObject({
      fileRefused: true,
      words: ["line 3: the file is not valid JSON"],
    });
    expect(read('{"schemaVersion": 2, "engineModels": []}').words[0]).toMatch(/^the file must read/);
    // An export writes prices and workshops beside engine models.
    expect(read('{"schemaVersion": 1, "currency": "EUR"}').words[0]).toMatch(
      /load it on the page Prices and workshops/,
    );
    expect(read("[]").fileRefused).toBe(true);
  });

  it("are known by being JSON, whatever the name and the byte order mark", async () => {
    const { kind, models, rows } = await readText(`\ufeff\n ${fileOf(good)}`, { file: "m.txt" });
    expect({ kind, rows, ids: models.map((m) => m.id) }).toEqual({ kind: "engine-models", rows: 1, ids: ["a"] });
  });
});

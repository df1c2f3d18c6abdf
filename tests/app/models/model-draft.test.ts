import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import {
  draftOf,
  evidenceText,
  type ModelDraft,
  modelDraftSchema,
  readModelDraft,
} from "@/app/_ui/models/model-draft.ts";
import type { FieldName, PartName } from "@/app/_ui/models/model-fields.ts";
import { readEngineModels } from "@/lib/intake/engine-models.ts";
import { type Cause, causes } from "@/lib/schema/words.ts";
import { demoFolder } from "../jobs/made-up-files.ts";

const demo = readEngineModels(readFileSync(path.join(demoFolder, "engine-models.json"), "utf8"), "").models;
const petrolModel = demo.find(({ id }) => id === "petrol-4-a") ?? null;
const petrol = draftOf(petrolModel);

interface Change {
  readonly fields?: Partial<Record<FieldName, string>>;
  readonly parts?: Partial<Record<PartName, boolean>>;
  readonly spreadRule?: ModelDraft["spreadRule"];
}
const changed = (draft: ModelDraft, { fields, parts, ...rest }: Change): ModelDraft => ({
  ...draft,
  ...rest,
  fields: { ...draft.fields, ...fields },
  parts: { ...draft.parts, ...parts },
});
const problemsOf = (draft: ModelDraft) => {
  const read = readModelDraft(draft);
  return read.ok ? {} : read.problems;
};

describe("the form of an engine model", () => {
  it.each(demo.map((model) => [model.id, model] as const))("tells %s, and reads it back as it was", (_id, model) => {
    const draft = draftOf(model);
    expect(modelDraftSchema.parse(draft)).toEqual(draft);
    const read = readModelDraft(draft);
    expect(read).toMatchObject({ ok: true, warnings: [] });
    expect(read.ok && JSON.stringify(read.model)).toBe(JSON.stringify(model));
  });

  const blankFigures = Object.fromEntries(causes.map((cause) => [cause, ""])) as Record<Cause, string>;
  const withFinding = (likelihoods: Partial<Record<Cause, string>>, reason: string): ModelDraft => ({
    ...petrol,
    evidence: [{ finding: "heard-exhaust", likelihoods: { ...blankFigures, ...likelihoods }, reason }],
  });

  it("takes likelihoods of a finding, and lets it be the table's again where all of it is left blank", () => {
    const read = readModelDraft(withFinding({ "exhaust-valve": "70,5" }, " long ports "), {
      sign: ",",
      seen: petrolModel,
    });
    expect(read.ok && read.model.evidence).toEqual({
      "heard-exhaust": { likelihoods: { "exhaust-valve": 0.705 }, reason: "long ports" },
    });
    const blank = readModelDraft(withFinding({}, " "));
    expect(blank.ok && "evidence" in blank.model).toBe(false);
  });

  it.each<[Partial<Record<Cause, string>>, string, Record<string, string>]>([
    [{ piston: "120" }, "x", { "evidence.heard-exhaust.likelihoods.piston": "Must be at most 99.9 %." }],
    [{ piston: "0" }, "x", { "evidence.heard-exhaust.likelihoods.piston": "Must be at least 0.1 %." }],
    [{ piston: "often" }, "x", { "evidence.heard-exhaust.likelihoods.piston": "Must be a number." }],
    [{ piston: "20" }, " ", { "evidence.heard-exhaust.reason": "Must not be empty." }],
    [{}, "no figure", { "evidence.heard-exhaust.likelihoods": "Must name a cause." }],
  ])("says why likelihoods %j for the reason %j are not taken", (likelihoods, reason, problems) =>
    expect(problemsOf(withFinding(likelihoods, reason))).toEqual(problems),
  );

  const withShares = (shares: Partial<Record<Cause, string>>, reason: string): ModelDraft => ({
    ...petrol,
    causeShares: { shares: { ...blankFigures, ...shares }, reason },
  });

  it("takes shares of causes, and lets them be the table's again where all of it is left blank", () => {
    const read = readModelDraft(withShares({ "head-gasket": "12,5", piston: "4" }, " long studs "), {
      sign: ",",
      seen: petrolModel,
    });
    expect(read.ok && read.model.causeShares).toEqual({
      shares: { "head-gasket": 0.125, piston: 0.04 },
      reason: "long studs",
    });
    const blank = readModelDraft(withShares({}, " "));
    expect(blank.ok && "causeShares" in blank.model).toBe(false);
    expect(evidenceText(withShares({ piston: "4" }, "x"))).not.toBe(evidenceText(petrol));
  });

  const sumWords = "Together they must come to at most 99 %, or to 100 % where every cause has its own.";
  const eight = (share: string) => Object.fromEntries(causes.map((cause) => [cause, share])) as Record<Cause, string>;
  it.each<[Partial<Record<Cause, string>>, string, Record<string, string>]>([
    [{ piston: "often" }, "x", { "causeShares.shares.piston": "Must be a number." }],
    [{ piston: "0" }, "x", { "causeShares.shares.piston": "Must be at least 0.1 %." }],
    [{ piston: "4" }, " ", { "causeShares.reason": "Must not be empty." }],
    [{}, "no figure", { "causeShares.shares": "Must name a cause." }],
    [{ piston: "60", "head-gasket": "39.5" }, "x", { "causeShares.shares": sumWords }],
    [eight("12"), "x", { "causeShares.shares": sumWords }],
    [eight("12.5"), "x", {}],
    [{ piston: "60", "head-gasket": "39" }, "x", {}],
  ])("says why shares %j for the reason %j are not taken", (shares, reason, problems) =>
    expect(problemsOf(withShares(shares, reason))).toEqual(problems),
  );

  it("prints likelihoods in per cent, and reads them as they were", () => {
    const likelihoods = { piston: 0.07, "exhaust-valve": 0.29, "inlet-valve": 0.001, "head-gasket": 0.123 };
    if (petrolModel === null) throw new Error("the demo has no petrol-4-a");
    const model = { ...petrolModel, evidence: { "heard-exhaust": { likelihoods, reason: "long ports" } } };
    const draft = draftOf(model);
    expect(draft.evidence[0]?.likelihoods).toMatchObject({
      piston: "7",
      "exhaust-valve": "29",
      "inlet-valve": "0.1",
      "head-gasket": "12.3",
    });
    const read = readModelDraft(draft, { seen: model });
    expect(read.ok && read.model.evidence?.["heard-exhaust"]?.likelihoods).toEqual(likelihoods);
  });

  it("is the same text for the same findings, in whatever order, without those left blank", () => {
    const blank = { finding: "heard-inlet", likelihoods: blankFigures, reason: "" } as const;
    const { evidence } = withFinding({ piston: "20" }, "x");
    const other = { finding: "heard-crankcase", likelihoods: { ...blankFigures, piston: "9" }, reason: "y" } as const;
    const text = (some: ModelDraft["evidence"]) => evidenceText({ ...petrol, evidence: some });
    expect(text([...evidence, blank, other])).toBe(text([other, ...evidence]));
    expect(text(evidence)).not.toBe(text([]));
  });

  it.each<[Change, Record<string, string>]>([
    [{ fields: { id: " " } }, { id: "Is missing." }],
    [{ fields: { name: "x".repeat(201) } }, { name: "Must have at most 200 letters." }],
    [{ fields: { id: "new" } }, { id: "Must be another word than new, . or .." }],
    [{ fields: { cylinders: "" } }, { cylinders: "Is missing." }],
    [{ fields: { cylinders: "17" } }, { cylinders: "Must be at most 16." }],
    [{ fields: { cylinders: "4.5" } }, { cylinders: "Must be a whole number." }],
    [{ fields: { "compression.newKpa": "high" } }, { "compression.newKpa": "Must be a number." }],
    [
      { fields: { "compression.newKpa": "1,400" } },
      { "compression.newKpa": "“1,400” may be read as 1400 or as 1.4: write 1400 or 1.4." },
    ],
    [{ fields: { "compression.newKpa": "20000" } }, { "compression.newKpa": "Must be at most 10000." }],
    [
      { fields: { "compression.minimumKpa": "1300" } },
      { "compression.minimumKpa": "Must lie below the pressure when new." },
    ],
    [
      { spreadRule: "absolute", fields: { "compression.spreadKpa": "" } },
      { "compression.spreadKpa": "The rule in kPa needs this pressure." },
    ],
    [{ fields: { "compression.spreadPercent": "101" } }, { "compression.spreadPercent": "Must be at most 100." }],
    [{ fields: { "compression.referenceRpm": "0" } }, { "compression.referenceRpm": "Must be above 0." }],
    [{ fields: { "leakDown.watchPercent": "0" } }, { "leakDown.watchPercent": "Must be above 0." }],
    [
      { fields: { "leakDown.planPercent": "31" } },
      { "leakDown.limitPercent": "Watch, plan and limit must ascend: none may lie below the one before it." },
    ],
    [
      { fields: { "leakDown.valves.watchPercent": "13" } },
      { "leakDown.valves.limitPercent": "Watch, plan and limit must ascend: none may lie below the one before it." },
    ],
    [{ fields: { "leakDown.valves.planPercent": "" } }, { "leakDown.valves.planPercent": "Is missing." }],
    [{ fields: { "leakDown.supplyKpa": "20000" } }, { "leakDown.supplyKpa": "Must be at most 10000." }],
    [
      { parts: { compression: false, leakDown: false } },
      { judged: "Say what it is judged on: compression, leak-down or both." },
    ],
    [{ fields: { "testInterval.days": "0" } }, { "testInterval.days": "Must be above 0." }],
    [{ fields: { "testInterval.meter": "-1" } }, { "testInterval.meter": "Must be above 0." }],
    [{ fields: { "repairs.topEnd.parts": "" } }, { "repairs.topEnd.parts": "Is missing." }],
    [
      { fields: { "repairs.bottomEnd.unplannedFactor": "0.5", "repairs.topEnd.labourHours": "x" } },
      {
        "repairs.bottomEnd.unplannedFactor": "Must be at least 1.",
        "repairs.topEnd.labourHours": "Must be a number.",
      },
    ],
  ])("refuses %j with the reason beside its field", (change, problems) => {
    expect(problemsOf(changed(petrol, change))).toEqual(problems);
  });

  it("says of a bore in inches what it would be in mm", () => {
    const told = problemsOf(changed(petrol, { fields: { "leakDown.orificeMm": "0.040" } }));
    expect(Object.keys(told)).toEqual(["leakDown.orificeMm"]);
    expect(told["leakDown.orificeMm"]).toContain("inch");
  });

  it("takes figures with a comma, and leaves out what is left empty or belongs to a part that the model lacks", () => {
    const fields = {
      "leakDown.orificeMm": "1,5",
      "leakDown.supplyKpa": "",
      "testInterval.meter": "",
      "testInterval.days": "",
      name: " ",
    };
    const read = readModelDraft(changed(petrol, { fields, parts: { compression: false, "repairs.topEnd": false } }));
    const model = read.ok ? read.model : null;
    expect(model?.leakDown).toMatchObject({ orificeMm: 1.5, supplyKpa: 550 });
    expect([model?.compression, model?.testInterval, model?.repairs?.topEnd, model?.name]).toEqual(
      Array(4).fill(undefined),
    );
    expect(model?.repairs?.bottomEnd).toBeDefined();
  });

  it("reads what was typed by the viewer's decimal sign, and what it printed with a point", () => {
    const seen = { ...(demo.find(({ id }) => id === "petrol-4-a") as (typeof demo)[number]) };
    const printed = draftOf(seen);
    expect(printed.fields["leakDown.orificeMm"]).toBe("1.016");
    expect(readModelDraft(printed, { seen, sign: "," }).ok).toBe(true);
    const typed = changed(printed, { fields: { "leakDown.orificeMm": "1,524" } });
    const read = readModelDraft(typed, { seen, sign: "," });
    expect(read.ok && read.model.leakDown?.orificeMm).toBe(1.524);
    expect(readModelDraft(typed, { seen }).ok).toBe(false);
    expect(readModelDraft(printed, { seen: null, sign: "," }).ok).toBe(false);
  });

  it("drops the ties of cylinders that the engine has no more", () => {
    const read = readModelDraft(changed(petrol, { fields: { cylinders: "3" } }));
    expect(read.ok && read.model.neighbours).toEqual([
      [1, 2],
      [2, 3],
    ]);
  });

  it("begins a new model with leak-down to be filled in and nothing else", () => {
    expect(Object.keys(problemsOf(draftOf(null))).sort()).toEqual([
      "cylinders",
      "id",
      "leakDown.limitPercent",
      "leakDown.planPercent",
      "leakDown.watchPercent",
    ]);
  });
});

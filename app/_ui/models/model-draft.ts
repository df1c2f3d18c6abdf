import { z } from "zod";
import { judgeModel } from "../../../lib/intake/engine-models.ts";
import { type EngineModel, likelihoodRange } from "../../../lib/schema/engine-model.ts";
import { type EvidenceId, evidenceIds } from "../../../lib/schema/evidence-ids.ts";
import { type Cause, causes } from "../../../lib/schema/words.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { type DecimalSign, figureOf, figureProblem } from "../figures.ts";
import { ofPercent, percentText } from "./likelihood-text.ts";
import { type FieldName, figureNames, type PartName, partNames, textNames } from "./model-fields.ts";

/** The form of an engine model: every field as it was typed, and the parts that the model has. */
export interface ModelDraft {
  readonly fields: Readonly<Record<FieldName, string>>;
  readonly parts: Readonly<Record<PartName, boolean>>;
  readonly layout: EngineModel["layout"];
  readonly spreadRule: NonNullable<EngineModel["compression"]>["spreadRule"];
  /** What cools it; "": not known. */
  readonly cooling: NonNullable<EngineModel["cooling"]> | "";
  readonly aircraft: boolean;
  readonly retired: boolean;
  /** A wet test is allowed although it is a diesel. */
  readonly wetTest: boolean;
  readonly neighbours: readonly (readonly [number, number])[];
  /** Its own likelihoods of findings. */
  readonly evidence: readonly EvidenceDraft[];
  /** Its own shares of the causes before anything is seen. */
  readonly causeShares: SharesDraft;
}

/** Shares as they were typed, in per cent; what is left blank shares the rest as the table has it. */
export interface SharesDraft {
  readonly shares: Readonly<Record<Cause, string>>;
  readonly reason: string;
}

/** A finding's own likelihoods as they were typed, in per cent; what is left blank stays the table's. */
export interface EvidenceDraft {
  readonly finding: EvidenceId;
  readonly likelihoods: Readonly<Record<Cause, string>>;
  readonly reason: string;
}

const fieldNames: readonly FieldName[] = [...textNames, ...figureNames];
const typed = z.string().max(400);
const recordOf = <K extends string, T extends z.ZodType>(names: readonly K[], value: T) =>
  z.object(Object.fromEntries(names.map((name) => [name, value])) as Record<K, T>);

/** What a browser sends back. */
export const modelDraftSchema: z.ZodType<ModelDraft> = z.object({
  fields: recordOf(fieldNames, typed),
  parts: recordOf(partNames, z.boolean()),
  layout: z.enum(["in-line", "v", "opposed"]),
  spreadRule: z.enum(["of-highest", "of-mean", "absolute"]),
  cooling: z.enum(["", "liquid", "air"]),
  aircraft: z.boolean(),
  retired: z.boolean(),
  wetTest: z.boolean(),
  neighbours: z.array(z.tuple([z.number(), z.number()])).max(256),
  evidence: z
    .array(
      z.object({
        finding: z.enum(evidenceIds),
        likelihoods: recordOf(causes, typed),
        reason: z.string().max(2000),
      }),
    )
    .max(evidenceIds.length),
  causeShares: z.object({ shares: recordOf(causes, typed), reason: z.string().max(2000) }),
});

type Tree = { readonly [key: string]: unknown };

function valueAt(tree: unknown, path: string): unknown {
  return path
    .split(".")
    .reduce<unknown>((at, key) => (typeof at === "object" && at !== null ? (at as Tree)[key] : undefined), tree);
}

/** The form as it begins: what a model tells, or blank fields for a new one. */
export function draftOf(model: EngineModel | null): ModelDraft {
  const textAt = (name: string) => String(valueAt(model, name) ?? "");
  return {
    fields: Object.fromEntries(fieldNames.map((name) => [name, textAt(name)])) as ModelDraft["fields"],
    parts: Object.fromEntries(
      partNames.map((part) => [part, model === null ? part === "leakDown" : valueAt(model, part) !== undefined]),
    ) as ModelDraft["parts"],
    layout: model?.layout ?? "in-line",
    spreadRule: model?.compression?.spreadRule ?? "of-highest",
    cooling: model?.cooling ?? "",
    aircraft: model?.aircraft ?? false,
    retired: model?.retired ?? false,
    wetTest: model?.wetTest ?? false,
    neighbours: model?.neighbours ?? [],
    evidence: Object.entries(model?.evidence ?? {}).map(([finding, { likelihoods, reason }]) => ({
      // The schema lets no other key in.
      finding: finding as EvidenceId,
      likelihoods: percentTexts(likelihoods),
      reason,
    })),
    causeShares: {
      shares: percentTexts(model?.causeShares?.shares ?? {}),
      reason: model?.causeShares?.reason ?? "",
    },
  };
}

const percentTexts = (of: Readonly<Partial<Record<Cause, number>>>): Record<Cause, string> =>
  Object.fromEntries(causes.map((cause) => [cause, percentText(of[cause])])) as Record<Cause, string>;

/** What is typed of findings and shares, the same for the same values in whatever order they were typed. */
export const evidenceText = ({ evidence, causeShares }: Pick<ModelDraft, "evidence" | "causeShares">): string =>
  JSON.stringify([
    evidence.filter((one) => !isBlank(one)).toSorted((a, b) => (a.finding < b.finding ? -1 : 1)),
    causes.map((cause) => causeShares.shares[cause]),
    causeShares.reason,
  ]);

const shareName = (cause: Cause): string => `causeShares.shares.${cause}`;
const likelihoodName = (finding: EvidenceId, cause: Cause): string => `evidence.${finding}.likelihoods.${cause}`;

/** A finding of which nothing is typed is the table's again. */
const isBlank = ({ likelihoods, reason }: Pick<EvidenceDraft, "likelihoods" | "reason">): boolean =>
  [...Object.values(likelihoods), reason].every((text) => text.trim() === "");

/** The figures that were typed in per cent, by cause, as shares of one. */
const figuresOf = (texts: Readonly<Record<Cause, string>>, signOf: (cause: Cause) => DecimalSign): Tree =>
  Object.fromEntries(
    causes.flatMap((cause) => {
      const figure = figureOf(texts[cause], signOf(cause));
      return figure === null ? [] : [[cause, ofPercent(figure)] as const];
    }),
  );

/** What of the findings was typed, by finding; null: nothing. */
function evidenceOf({ evidence }: ModelDraft, signOf: SignOf): Tree | null {
  const told = evidence.filter((one) => !isBlank(one));
  if (told.length === 0) return null;
  return Object.fromEntries(
    told.map(({ finding, likelihoods, reason }) => {
      const figures = figuresOf(likelihoods, (cause) => signOf(likelihoodName(finding, cause)));
      return [finding, { likelihoods: figures, reason }];
    }),
  );
}

/** Whether the model has the part that a field is of. */
const isTold = (name: string, { parts }: Pick<ModelDraft, "parts">): boolean =>
  partNames.every((part) => parts[part] || !name.startsWith(`${part}.`));

/** The sign by which a field was typed, by its name. */
type SignOf = (name: string) => DecimalSign;

/** The model's JSON as the form tells it: unchecked, fields left empty are left out. */
function entryOf(draft: ModelDraft, signOf: SignOf): Tree {
  const entry: Record<string, unknown> = { layout: draft.layout, aircraft: draft.aircraft };
  const put = (path: string, value: unknown) => {
    const keys = path.split(".");
    const last = keys.pop() as string;
    let at = entry;
    for (const key of keys) {
      at[key] ??= {};
      // Made just now, or by a field before.
      at = at[key] as Record<string, unknown>;
    }
    at[last] = value;
  };
  for (const part of partNames) if (isTold(`${part}.`, draft)) put(part, {});
  for (const name of textNames) if (draft.fields[name].trim() !== "") put(name, draft.fields[name]);
  for (const name of figureNames) {
    const figure = figureOf(draft.fields[name], signOf(name));
    if (figure !== null && isTold(name, draft)) put(name, figure);
  }
  if (draft.parts.compression) put("compression.spreadRule", draft.spreadRule);
  if (draft.cooling !== "") put("cooling", draft.cooling);
  if (draft.retired) put("retired", true);
  if (draft.wetTest) put("wetTest", true);
  const evidence = evidenceOf(draft, signOf);
  if (evidence !== null) put("evidence", evidence);
  const { shares, reason } = draft.causeShares;
  if (!isBlank({ likelihoods: shares, reason })) {
    put("causeShares", { shares: figuresOf(shares, (cause) => signOf(shareName(cause))), reason });
  }
  const cylinders = figureOf(draft.fields.cylinders, signOf("cylinders")) ?? 0;
  // Ties of cylinders that the engine has no more went with them.
  entry["neighbours"] = draft.neighbours.filter((pair) => pair.every((cylinder) => cylinder <= cylinders));
  return entry;
}

const ascending: readonly [field: string, words: string] = [
  ".limitPercent",
  "Watch, plan and limit must ascend: none may lie below the one before it.",
];
/** Rules over several fields: the field that their reason stands beside, and the reason in the form's words. */
const rules: Readonly<Record<string, readonly [field: string, words: string]>> = {
  "leakDown: watchPercent, planPercent and limitPercent must ascend": [`leakDown${ascending[0]}`, ascending[1]],
  "leakDown.valves: watchPercent, planPercent and limitPercent must ascend": [
    `leakDown.valves${ascending[0]}`,
    ascending[1],
  ],
  "compression.minimumKpa: minimumKpa must lie below newKpa": [
    "compression.minimumKpa",
    "Must lie below the pressure when new.",
  ],
  "compression.spreadKpa: spreadRule absolute needs spreadKpa": [
    "compression.spreadKpa",
    "The rule in kPa needs this pressure.",
  ],
  ": a model needs compression (newKpa, minimumKpa) or leakDown (watchPercent, planPercent, limitPercent)": [
    "judged",
    "Say what it is judged on: compression, leak-down or both.",
  ],
  "causeShares.shares: must come to at most 0.99 together, or to 1 where every cause is named": [
    "causeShares.shares",
    "Together they must come to at most 99 %, or to 100 % where every cause has its own.",
  ],
};

export type ReadDraft =
  | { readonly ok: true; readonly model: EngineModel; readonly warnings: readonly string[] }
  | { readonly ok: false; readonly problems: FieldProblems };

/**
 * Reads the form by the rules that hold for files. Each field that is not taken has its reason, by its name. `seen`: the
 * model that the form began with, whose figures it printed; `sign`: the viewer's decimal sign.
 */
export function readModelDraft(
  draft: ModelDraft,
  { seen = null, sign = "." }: { readonly seen?: EngineModel | null; readonly sign?: DecimalSign } = {},
): ReadDraft {
  const [typedText, printed] = [textsOf(draft), textsOf(draftOf(seen))];
  const signOf: SignOf = (name) => (typedText.get(name) === printed.get(name) ? "." : sign);
  const { model, problems } = judgeModel(entryOf(draft, signOf));
  if (model !== null) return { ok: true, model, warnings: problems.map(({ why }) => sentence(why)) };
  const told: Record<string, string> = {};
  for (const name of figureNames) {
    const unclear = isTold(name, draft) ? figureProblem(draft.fields[name], signOf(name)) : null;
    if (unclear !== null) told[name] = unclear;
  }
  for (const [name, text] of percentsOf(draft)) {
    const unclear = figureProblem(text, signOf(name)) ?? rangeProblem(text, signOf(name));
    if (unclear !== null) told[name] = unclear;
  }
  for (const { path, why } of problems) {
    const name = path.map(String).join(".");
    const [field, words] = rules[`${name}: ${why}`] ?? [name, sentence(why)];
    told[field] ??= words;
  }
  return { ok: false, problems: told };
}

/** Every likelihood and share as it was typed, by the name of its field. */
const percentsOf = ({
  evidence,
  causeShares,
}: Pick<ModelDraft, "evidence" | "causeShares">): readonly (readonly [name: string, text: string])[] => [
  ...evidence.flatMap((one) =>
    causes.map((cause) => [likelihoodName(one.finding, cause), one.likelihoods[cause]] as const),
  ),
  ...causes.map((cause) => [shareName(cause), causeShares.shares[cause]] as const),
];

/** Why a likelihood in per cent is not taken: the rule for files speaks of shares. */
function rangeProblem(text: string, sign: DecimalSign): string | null {
  const likelihood = ofPercent(figureOf(text, sign) ?? Number.NaN);
  const { least, most } = likelihoodRange;
  if (likelihood < least) return `Must be at least ${percentText(least)} %.`;
  return likelihood > most ? `Must be at most ${percentText(most)} %.` : null;
}

/** Every field of figures as it was typed, by its name. */
const textsOf = (draft: ModelDraft): ReadonlyMap<string, string> =>
  new Map([...Object.entries(draft.fields), ...percentsOf(draft)]);

const sentence = (why: string): string => `${sentenceWords(why)}${/[.?]$/.test(why) ? "" : "."}`;

import { z } from "zod";
import { type EngineModel, engineModelSchema } from "../schema/engine-model.ts";
import type { RowIssue } from "../schema/intake.ts";
import { jsonIssueWords, jsonPathWords } from "../schema/json-words.ts";
import { judgeBore } from "./judge-reading.ts";
import { fileIssue, rowIssue, words } from "./words.ts";

/** The engine-model file (contract, section 4) to models, with what is wrong told in words. */

/** Whether it is a file of prices and workshops, which an export writes beside that of engine models. */
const isWorkshopFile = (json: unknown): boolean =>
  typeof json === "object" && json !== null && ["anyDepot", "unitClasses", "currency"].some((name) => name in json);

const envelopeSchema = z.object({ schemaVersion: z.literal(1), engineModels: z.array(z.unknown()).min(1) });

/** Paths of the keys in `input` that a schema did not take over. */
function strayKeys(input: unknown, taken: unknown, path = ""): readonly string[] {
  if (typeof input !== "object" || input === null || Array.isArray(input)) return [];
  if (typeof taken !== "object" || taken === null) return [];
  const known = new Map<string, unknown>(Object.entries(taken));
  return Object.entries(input).flatMap(([key, value]) => {
    const here = path === "" ? key : `${path}.${key}`;
    return known.has(key) ? strayKeys(value, known.get(key), here) : [here];
  });
}

const borePath = ["leakDown", "orificeMm"];

/** Place in the list, as people count. */
const placeOf = (index: number) => `number ${index + 1}`;

/** How a person finds a model in its file: by its id, or its place in the list. */
const nameOf = (entry: unknown, index: number): string => {
  const id = typeof entry === "object" && entry !== null && "id" in entry ? entry.id : undefined;
  return typeof id === "string" && id.trim() !== "" ? id.trim() : placeOf(index);
};

/** The line on which the JSON breaks off, where the engine tells it. */
function brokenLine(text: string, error: unknown): number | null {
  const position = error instanceof Error ? /position (\d+)/.exec(error.message)?.[1] : undefined;
  return position === undefined ? null : text.slice(0, Number(position)).split("\n").length;
}

/** One thing that is wrong with a model, or that was ignored; `why` ends a sentence whose subject is the field. */
export interface ModelProblem extends Pick<RowIssue, "severity" | "code"> {
  readonly path: readonly PropertyKey[];
  readonly why: string;
}

/** Judges one model, from a file or a form. `model` is null where a problem refuses it. */
export function judgeModel(entry: unknown): {
  readonly model: EngineModel | null;
  readonly problems: readonly ModelProblem[];
} {
  const parsed = engineModelSchema.safeParse(entry, { reportInput: true });
  if (!parsed.success) {
    const problems = parsed.error.issues.map((issue) => {
      return { severity: "refused", code: "model-field", path: issue.path, why: jsonIssueWords(issue) } as const;
    });
    return { model: null, problems };
  }
  const stray = strayKeys(entry, parsed.data).map((path) => {
    return { severity: "mention", code: "model-field-unknown", path: [path], why: words.fieldUnknown } as const;
  });
  const bore =
    parsed.data.leakDown === undefined ? null : judgeBore(parsed.data.leakDown.orificeMm, borePath.join("."));
  const problems = bore === null ? stray : [...stray, { ...bore, path: borePath }];
  return { model: bore?.severity === "refused" ? null : parsed.data, problems };
}

/**
 * Reads an engine-model file. Each model is judged by itself: the good ones are given, what is wrong with the others is
 * told by the path of the field. `entries` counts both. `fileRefused`: the file is no list of engine models at all.
 */
export function readEngineModels(
  text: string,
  file: string,
): {
  readonly models: readonly EngineModel[];
  readonly entries: number;
  readonly issues: readonly RowIssue[];
  readonly fileRefused: boolean;
} {
  const refuseFile = (issue: RowIssue) => ({ models: [], entries: 0, issues: [issue], fileRefused: true });
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    const line = brokenLine(text, error);
    if (line === null) return refuseFile(fileIssue("refused", "not-json", { file }, words.notJson));
    return refuseFile(rowIssue("refused", "not-json", { file, line, column: null, value: null }, words.notJson));
  }
  const envelope = envelopeSchema.safeParse(json);
  if (!envelope.success) {
    const why = isWorkshopFile(json) ? words.workshopFile : words.modelsShape;
    return refuseFile(fileIssue("refused", "models-shape", { file }, why));
  }

  const issues: RowIssue[] = [];
  const tell = (index: number, issue: Pick<RowIssue, "severity" | "code" | "column">, why: string) =>
    issues.push({
      ...fileIssue(issue.severity, issue.code, { file }, why),
      column: issue.column,
      entry: placeOf(index),
    });
  const byId = new Map<string, { readonly index: number; readonly model: EngineModel }[]>();
  for (const [index, entry] of envelope.data.engineModels.entries()) {
    const name = nameOf(entry, index);
    const { model, problems } = judgeModel(entry);
    for (const { severity, code, path, why } of problems) {
      const field = jsonPathWords(path);
      tell(index, { severity, code, column: field === "" ? null : field }, words.modelField(name, field, why));
    }
    if (model === null) continue;
    byId.set(model.id, [...(byId.get(model.id) ?? []), { index, model }]);
  }
  for (const path of strayKeys(json, envelope.data)) {
    issues.push({
      ...fileIssue("mention", "field-unknown", { file }, `${path} ${words.fieldUnknown}`),
      column: path,
    });
  }
  const models: EngineModel[] = [];
  for (const [id, same] of byId) {
    if (same.length === 1) models.push(...same.map(({ model }) => model));
    else {
      for (const { index } of same) {
        const others = same.filter((other) => other.index !== index).map((other) => placeOf(other.index));
        const why = words.modelField(placeOf(index), "id", words.modelTwice(id, others));
        tell(index, { severity: "refused", code: "model-twice", column: "id" }, why);
      }
    }
  }
  return { models, entries: envelope.data.engineModels.length, issues, fileRefused: false };
}

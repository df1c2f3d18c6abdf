import { z } from "zod";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { type ScenarioChange, scenarioChangeSchema } from "../../../lib/schema/scenario.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { type DecimalSign, figureOf, figureProblem } from "../figures.ts";

/** The form of a what-if, as it is typed. */
export const scenarioKinds = ["postpone", "capacity", "limit", "use", "run-to-limit", "exchange"] as const;
export type ScenarioKind = (typeof scenarioKinds)[number];

const typed = z.string().max(longestName);
export const scenarioFormSchema = z.object({
  name: typed,
  kind: z.enum(scenarioKinds),
  months: typed,
  percent: typed,
  depot: typed,
  engineModel: typed,
  limit: z.enum(["leak-down", "compression"]),
  by: typed,
  count: typed,
  price: typed,
  month: typed,
});
export type ScenarioForm = z.infer<typeof scenarioFormSchema>;

type Read =
  | { readonly ok: true; readonly name: string; readonly change: ScenarioChange }
  | { readonly ok: false; readonly problems: FieldProblems };

/** Which fields each kind of change has. */
export const fieldsOf: Readonly<Record<ScenarioKind, readonly (keyof ScenarioForm)[]>> = {
  postpone: ["months"],
  capacity: ["percent", "depot"],
  limit: ["engineModel", "limit", "by"],
  use: ["percent"],
  "run-to-limit": [],
  exchange: ["engineModel", "count", "price", "month"],
};

const refusals: Readonly<Partial<Record<keyof ScenarioForm, string>>> = {
  months: "Give whole months, 1 to 24.",
  percent: "Give a percentage: less than nothing is written with a minus.",
  engineModel: "Choose an engine model.",
  by: "Give by how much, in points or kPa; with a minus for lower.",
  count: "Give how many, 1 to 100.",
  price: "Give what one costs.",
  month: "Give a month as 2026-10.",
};

/** What was typed, as a change; figures by the viewer's decimal sign. */
export function readScenarioForm(form: ScenarioForm, sign: DecimalSign): Read {
  const problems: Record<string, string> = {};
  const name = form.name.trim();
  if (name === "") problems["name"] = "Give it a name.";
  const figure = (field: "months" | "percent" | "by" | "count" | "price"): number => {
    const problem = figureProblem(form[field], sign);
    if (problem !== null && fieldsOf[form.kind].includes(field)) problems[field] = problem;
    return figureOf(form[field], sign) ?? Number.NaN;
  };
  const parsed = scenarioChangeSchema.safeParse(changeOf(form, figure));
  if (!parsed.success) {
    for (const { path } of parsed.error.issues) {
      const field = String(path[0]) as keyof ScenarioForm;
      problems[field] ??= refusals[field] ?? "This is not understood.";
    }
  }
  if (form.kind === "limit" && parsed.success && parsed.data.kind === "limit" && parsed.data.by === 0)
    problems["by"] = refusals.by ?? "";
  return parsed.success && Object.keys(problems).length === 0
    ? { ok: true, name, change: parsed.data }
    : { ok: false, problems };
}

function changeOf(form: ScenarioForm, figure: (field: "months" | "percent" | "by" | "count" | "price") => number) {
  const { kind, engineModel } = form;
  switch (kind) {
    case "postpone":
      return { kind, months: figure("months") };
    case "capacity":
      return { kind, percent: figure("percent"), depot: form.depot === "" ? null : form.depot };
    case "limit":
      return { kind, engineModel, of: form.limit, by: figure("by") };
    case "use":
      return { kind, percent: figure("percent") };
    case "run-to-limit":
      return { kind };
    case "exchange":
      return { kind, engineModel, count: figure("count"), price: figure("price"), month: form.month.trim() };
  }
}

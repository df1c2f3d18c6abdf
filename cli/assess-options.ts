import { z } from "zod";
import type { ReadingChoice } from "../lib/schema/reading.ts";
import { settingsSchema } from "../lib/schema/settings.ts";
import type { FileKind } from "../lib/schema/words.ts";
import { readArguments } from "./arguments.ts";
import { readingOptions, readReadingOptions } from "./reading-options.ts";
import { Refusal } from "./refusal.ts";

export interface AssessOptions {
  readonly results: readonly string[];
  readonly models: string;
  readonly others: readonly { readonly file: string; readonly kind: FileKind }[];
  /** null: the latest date in the files. */
  readonly asOf: string | null;
  readonly horizonYears: number;
  readonly json: boolean;
  readonly reading: ReadingChoice;
}

const text = { type: "string" } as const;
const forPlans = { workshop: text, seconds: text };
const planOptions = { ...forPlans, wait: text };
const budgetOptions = { ...forPlans, seed: text, draws: text };
const otherKinds = ["units", "depots", "repairs", "meters", "checks", "judgements"] as const;

/**
 * Reads the options of `assess`, which `backtest`, `plan` and `budget` share; refuses what is missing, unknown or out of
 * range. The last two have more of their own.
 */
export function readAssessOptions(
  command: "assess" | "backtest" | "plan" | "budget",
  args: readonly string[],
): AssessOptions & { readonly own: Readonly<Record<string, string>> } {
  const see = `See borecast ${command} --help`;
  const { values, positionals } = readArguments(command, args, {
    models: text,
    units: text,
    depots: text,
    repairs: text,
    meters: text,
    checks: text,
    judgements: text,
    "as-of": text,
    "horizon-years": text,
    json: { type: "boolean", default: false },
    ...(command === "plan" ? planOptions : command === "budget" ? budgetOptions : {}),
    ...readingOptions,
  });
  if (positionals.length === 0) throw new Refusal(`No file of test results was given. ${see}`);
  if (values.models === undefined) throw new Refusal(`The engine models are missing: give --models FILE. ${see}`);
  return {
    results: positionals,
    models: values.models,
    others: otherKinds.flatMap((kind) => {
      const file = values[kind];
      return file === undefined ? [] : [{ file, kind }];
    }),
    asOf: dateOf(values["as-of"]),
    horizonYears: horizonOf(values["horizon-years"]),
    json: values.json,
    reading: readReadingOptions(values),
    own: Object.fromEntries(
      Object.entries(values).flatMap(([name, of]) => (typeof of === "string" ? [[name, of]] : [])),
    ),
  };
}

function dateOf(given: string | undefined): string | null {
  if (given === undefined) return null;
  if (z.iso.date().safeParse(given).success) return given;
  throw new Refusal(`--as-of ${given} is not a date; write it as YYYY-MM-DD, such as 2026-06-30.`);
}

function horizonOf(given: string | undefined): number {
  const { horizonYears } = settingsSchema.shape;
  if (given === undefined) return horizonYears.parse(undefined);
  const years = given.trim() === "" ? Number.NaN : Number(given);
  const parsed = horizonYears.safeParse(years);
  if (parsed.success) return parsed.data;
  throw new Refusal(`--horizon-years ${given} is not possible; it must be a number above 0 and at most 30.`);
}

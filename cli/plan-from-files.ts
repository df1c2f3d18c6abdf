import { readFile } from "node:fs/promises";
import { guarded } from "../app/_jobs/guarded.ts";
import { readWorkshopFile } from "../app/_jobs/read-workshop.ts";
import { solver } from "../app/_jobs/solver.ts";
import { assessUnit } from "../lib/assess.ts";
import { fitFleet } from "../lib/comparison/instrument-biases.ts";
import { makePlan } from "../lib/plan/make-plan.ts";
import { outlookOf } from "../lib/plan/outlook-of.ts";
import { planProblemOf, type UnitOutlook } from "../lib/plan/problem-of.ts";
import { planGap } from "../lib/plan/types.ts";
import { type KnownNames, unknownNames } from "../lib/plan/unknown-names.ts";
import type { FleetFacts, IsoDate } from "../lib/schema/facts.ts";
import { settingsSchema } from "../lib/schema/settings.ts";
import { type Workshop, workshopSchema } from "../lib/schema/workshop.ts";
import { indexFleet } from "../lib/sealing/seal.ts";
import { numberWords } from "../lib/wording.ts";
import { readAssessOptions } from "./assess-options.ts";
import { readableSize } from "./files.ts";
import type { ToldPlan } from "./plan-document.ts";
import { troubleLines } from "./plan-tables.ts";
import { readFleet } from "./read-fleet.ts";
import { Refusal } from "./refusal.ts";
import { bar, progressLine, tell } from "./terminal.ts";

/** What the commands that plan from files and keep nothing have in common. */

export const progress = progressLine();

export interface PlanFromFiles {
  readonly told: ToldPlan;
  readonly outlooks: readonly UnitOutlook[];
  /** Options of the command's own. */
  readonly own: Readonly<Record<string, string>>;
  readonly json: boolean;
  /** How far the forecast looks. */
  readonly horizonYears: number;
  /** Rows were refused, units left out or pins not kept; each was told. */
  readonly isIncomplete: boolean;
}

/** Reads the fleet and the workshop, assesses all units and makes the plan. */
export async function planFromFiles(command: "plan" | "budget", args: readonly string[]): Promise<PlanFromFiles> {
  const { own, ...options } = readAssessOptions(command, args);
  const seconds = numberOf("seconds", own["seconds"], { least: 1, most: 3600, usual: 60 });
  const workshop = await readWorkshop(own["workshop"], command);
  const { facts, asOf, refused } = await readFleet(options, command, progress);
  if (own["workshop"] !== undefined) {
    for (const { path, message } of unknownNames(workshop, namesIn(facts))) {
      tell(`${own["workshop"]}: ${path.join(".")}: ${message}`);
    }
  }
  const { outlooks, left } = outlooksOf(facts, { asOf, horizonYears: options.horizonYears });
  const { problem, leftOut, outside } = planProblemOf(outlooks, workshop, { asOf, dropped: [] });
  progress.show("Looking for the cheapest plan …");
  const plan = makePlan(await solver(), problem, {
    gap: planGap,
    seconds,
    clock: () => performance.now() / 1000,
    onProgress: ({ seconds: so }) => {
      progress.show(`Looking for the cheapest plan  ${numberWords(so)} s`);
      return true;
    },
  });
  progress.clear();
  const told = { plan, problem, leftOut, outside, workshop, asOf };
  const trouble = troubleLines(told);
  for (const line of trouble) tell(line);
  const isIncomplete = refused > 0 || left > 0 || trouble.length > 0;
  const { json, horizonYears } = options;
  return { told, outlooks, own, json, horizonYears, isIncomplete };
}

function outlooksOf(
  facts: FleetFacts,
  { asOf, horizonYears }: { readonly asOf: IsoDate; readonly horizonYears: number },
): { readonly outlooks: readonly UnitOutlook[]; readonly left: number } {
  const settings = settingsSchema.parse({ horizonYears });
  progress.show("Putting the tests in order …");
  const index = indexFleet(facts, { asOf });
  for (const problem of index.problems) tell(problem);
  const pools = fitFleet(index, asOf);
  const outlooks: UnitOutlook[] = [];
  for (const [i, unit] of index.units.entries()) {
    const assessed = guarded(`the unit ${unit.unit}`, () =>
      outlookOf(assessUnit(index, unit, { asOf, settings, pools })),
    );
    if (assessed.ok) outlooks.push(assessed.value);
    else {
      progress.clear();
      tell(`${assessed.error.words}.`);
    }
    progress.show(`Assessing  ${bar((i + 1) / index.units.length)}  ${numberWords(i + 1)} units`);
  }
  progress.clear();
  return { outlooks, left: index.units.length - outlooks.length };
}

/** What the files tell of by name. */
const namesIn = ({ units, tests, depots, models }: FleetFacts): KnownNames => ({
  units: new Set([...units, ...tests].map(({ unit }) => unit)),
  depots: new Set([...depots, ...units, ...tests].flatMap(({ depot }) => depot ?? [])),
  engineModels: new Set(models.map(({ id }) => id)),
});

/** What the workshops have; where nothing was given, the defaults. */
async function readWorkshop(file: string | undefined, command: "plan" | "budget"): Promise<Workshop> {
  if (file === undefined) return workshopSchema.parse({});
  await readableSize(file);
  const text = await readFile(file, "utf8");
  const read = readWorkshopFile(text);
  if (read.ok) return read.workshop;
  throw new Refusal(`${file} is not usable: ${read.why}. Nothing was planned. See borecast ${command} --help`);
}

/** A number given as an option, or the usual one; refuses what is none or out of range. */
export function numberOf(
  option: string,
  given: string | undefined,
  {
    least,
    most,
    usual,
    isWhole = false,
  }: { readonly least: number; readonly most: number; readonly usual: number; readonly isWhole?: boolean },
): number {
  if (given === undefined) return usual;
  const number = Number(given);
  const isOne = given.trim() !== "" && (isWhole ? Number.isInteger(number) : Number.isFinite(number));
  if (isOne && number >= least && number <= most) return number;
  throw new Refusal(
    `--${option} ${given} is not possible; it must be a ${isWhole ? "whole " : ""}number from ${numberWords(least)} to ${numberWords(most)}.`,
  );
}

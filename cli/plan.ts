import { readFile } from "node:fs/promises";
import { guarded } from "../app/_jobs/guarded.ts";
import { solver } from "../app/_jobs/solver.ts";
import { assessUnit } from "../lib/assess.ts";
import { fitPools } from "../lib/assessment/pools.ts";
import { makePlan } from "../lib/plan/make-plan.ts";
import { outlookOf } from "../lib/plan/outlook-of.ts";
import { planProblemOf, type UnitOutlook } from "../lib/plan/problem-of.ts";
import type { FleetFacts, IsoDate } from "../lib/schema/facts.ts";
import { settingsSchema } from "../lib/schema/settings.ts";
import { type Workshop, workshopSchema } from "../lib/schema/workshop.ts";
import { indexFleet } from "../lib/sealing/seal.ts";
import { numberWords } from "../lib/wording.ts";
import { readAssessOptions } from "./assess-options.ts";
import { readableSize } from "./files.ts";
import { planDocument } from "./plan-document.ts";
import { planTables, troubleLines } from "./plan-tables.ts";
import { readFleet } from "./read-fleet.ts";
import { Refusal } from "./refusal.ts";
import { bar, print, progressLine, tell } from "./terminal.ts";

const progress = progressLine();

/** Proven to lie within this share of the least. */
const gap = 0.001;

/** `borecast plan`: stateless; its options are those of `assess` and what the workshops have. */
export async function plan(args: readonly string[]): Promise<number> {
  const { own, ...options } = readAssessOptions("plan", args);
  const seconds = secondsOf(own["seconds"]);
  const workshop = await readWorkshop(own["workshop"]);
  const { facts, asOf, refused } = await readFleet(options, "plan", progress);
  const { outlooks, left } = outlooksOf(facts, { asOf, horizonYears: options.horizonYears });
  const { problem, leftOut, outside } = planProblemOf(outlooks, workshop, { asOf, dropped: [] });
  progress.show("Looking for the cheapest plan …");
  const made = makePlan(await solver(), problem, {
    gap,
    seconds,
    clock: () => performance.now() / 1000,
    onProgress: ({ seconds: so }) => {
      progress.show(`Looking for the cheapest plan  ${numberWords(so)} s`);
      return true;
    },
  });
  progress.clear();
  const told = { plan: made, problem, leftOut, outside, workshop, asOf };
  const trouble = troubleLines(told);
  for (const line of trouble) tell(line);
  await print(options.json ? `${JSON.stringify(planDocument(told))}\n` : planTables(told));
  return refused > 0 || left > 0 || trouble.length > 0 ? 1 : 0;
}

function outlooksOf(
  facts: FleetFacts,
  { asOf, horizonYears }: { readonly asOf: IsoDate; readonly horizonYears: number },
): { readonly outlooks: readonly UnitOutlook[]; readonly left: number } {
  const settings = settingsSchema.parse({ horizonYears });
  progress.show("Putting the tests in order …");
  const index = indexFleet(facts, { asOf });
  for (const problem of index.problems) tell(problem);
  const pools = fitPools(index, asOf);
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

/** What the workshops have; where nothing was given, the defaults. */
async function readWorkshop(file: string | undefined): Promise<Workshop> {
  if (file === undefined) return workshopSchema.parse({});
  await readableSize(file);
  const text = await readFile(file, "utf8");
  let written: unknown;
  try {
    written = JSON.parse(text);
  } catch {
    throw new Refusal(`${file} is not JSON. See borecast plan --help`);
  }
  const parsed = workshopSchema.safeParse(written);
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  const where = issue === undefined || issue.path.length === 0 ? "" : `${issue.path.join(".")}: `;
  throw new Refusal(`${file} is not usable: ${where}${issue?.message ?? "not as expected"}. Nothing was planned.`);
}

function secondsOf(given: string | undefined): number {
  if (given === undefined) return 60;
  const seconds = Number(given);
  if (given.trim() !== "" && Number.isFinite(seconds) && seconds >= 1 && seconds <= 3600) return seconds;
  throw new Refusal(`--seconds ${given} is not possible; it must be a number from 1 to 3600.`);
}

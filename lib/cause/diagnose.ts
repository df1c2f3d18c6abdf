import type { ConditionedEngine } from "../condition/types.ts";
import type { CauseShare } from "../schema/assessment.ts";
import type { IsoDate } from "../schema/facts.ts";
import { type Cause, causes, repairClassOf } from "../schema/words.ts";
import { questionsAsked } from "./asked.ts";
import { type Finding, type Posterior, posterior } from "./bayes.ts";
import { type EngineView, engineView } from "./engine-view.ts";
import { evidence } from "./evidence.ts";
import { observeChecks } from "./observe-checks.ts";
import { observeCompression } from "./observe-compression.ts";
import { observeHeard, observeHeardFromNext, placesHeard } from "./observe-heard.ts";
import { observeFirstStroke, observeWet } from "./observe-oil-and-stroke.ts";
import { observeDoubts, observeImprovements, observeRenewals, observeRepairEffect } from "./observe-set-up.ts";
import { observeSiblings } from "./observe-siblings.ts";
import { unexplainedLow } from "./observe-unexplained.ts";
import { type CauseTable, tableFor } from "./table.ts";
import { twoCauses } from "./two-causes.ts";
import type { CylinderDiagnosis } from "./types.ts";
import { percentInWords } from "./words.ts";

/** Said first in every cause's reasons of a cylinder that was never tested. */
export const notTestedYet = "not tested yet: the usual shares of an engine in service";
const nothingSpecial = "nothing points elsewhere: the usual share of an engine in service";

/** A finding is told as a reason where it moves a cause by at least this factor, as a natural log. */
const worthTelling = 0.15;
const reasonsTold = 6;
const noReasons: readonly string[] = [];

/**
 * Whose fault the loss of sealing mostly is, for each cylinder of the engine's model, tested or not, ascending by
 * cylinder.
 *
 * Probabilities of the eight causes of lib/schema/words.ts by Bayes' rule over the evidence table (evidence.ts), for each
 * cause alone and each two at once; they and the class sums add up to 1. `table`: the one in force for the engine's model;
 * left out: the starting one, with what the model's file says. Looks at the last six usable tests of each measure up to `asOf` (three for where air
 * was heard), so the cost does not grow with the history. Evidence from before a repair does not speak of what it
 * renewed. Doubtful readings are no evidence of wear: while no re-test has settled them they raise `test-set-up`.
 *
 * Misleads where three causes act at once; on two-stroke engines, which have no valves; and where a repair was not recorded. A sound cylinder gets about the
 * priors: that is no finding.
 */
export function diagnoseEngine(
  engine: ConditionedEngine,
  {
    asOf,
    table = tableFor(engine.history.model),
  }: {
    readonly asOf: IsoDate;
    readonly table?: CauseTable;
  },
): CylinderDiagnosis[] {
  const view = engineView(engine, asOf);
  return Array.from({ length: view.model.cylinders }, (_, index) => diagnoseCylinder(view, index + 1, table));
}

function diagnoseCylinder(view: EngineView, cylinder: number, table: CauseTable): CylinderDiagnosis {
  const isTested = wasTested(view, cylinder);
  const findings = observe(view, cylinder, isTested);
  const result = posterior(findings, table);
  const told: (string | undefined)[] = [];
  const words = (index: number): string => (told[index] ??= wordsOf(findings[index]));
  const shares = causes.map((cause, index): CauseShare => {
    const because = reasons(result, words, index, 1);
    return {
      cause,
      probability: result.shares[index] ?? 0,
      because: isTested ? because : [notTestedYet, ...because],
      against: reasons(result, words, index, -1),
    };
  });
  // Array sort is stable: equal shares keep the order of `causes`.
  shares.sort((a, b) => b.probability - a.probability);
  const top = shares[0];
  if (top !== undefined && top.because.length === 0) shares[0] = { ...top, because: [nothingSpecial] };
  return {
    cylinder,
    causes: shares,
    ...classShares(shares),
    together: twoCauses(result.hypotheses),
    heardAt: placesHeard(view, cylinder),
    hypotheses: result.hypotheses,
    asked: questionsAsked(view, cylinder),
    oddCompression: unexplainedLow(view, cylinder)?.isOneReading ?? false,
  };
}

/** One cause of the likeliest of a cylinder, from before anything is seen to after all of it. */
export interface WeighedCause {
  readonly cause: Cause;
  /** Its share before anything is seen, and after. */
  readonly before: number;
  readonly after: number;
}

/** How the probabilities of a cylinder's causes come about. */
export interface WeighedCauses {
  /** The likeliest first. */
  readonly causes: readonly WeighedCause[];
  /**
   * What was seen, in words, what moves these causes most first; `factors`: by how much it multiplies the odds of each against all
   * others (Good 1950), in the order of `causes`; `strength`: the exponent that the table's likelihoods were raised to.
   */
  readonly findings: readonly {
    readonly words: string;
    readonly strength: number;
    readonly factors: readonly number[];
  }[];
}

/** So many causes are weighed beside each other, and none below this share. */
const causesWeighed = 3;
const leastWeighed = 0.01;

/** The figures behind `diagnoseEngine` for one cylinder: shares before and after, and the factor of each finding. */
export function weighCauses(
  engine: ConditionedEngine,
  cylinder: number,
  { asOf, table }: { readonly asOf: IsoDate; readonly table: CauseTable },
): WeighedCauses {
  const view = engineView(engine, asOf);
  const findings = observe(view, cylinder, wasTested(view, cylinder));
  const { shares, weights } = posterior(findings, table);
  const likeliest = causes
    .map((cause, place) => ({
      cause,
      place,
      before: table.causePriors[place] as number,
      after: shares[place] as number,
    }))
    .toSorted((a, b) => b.after - a.after)
    .filter(({ after }, rank) => rank < causesWeighed && after >= leastWeighed);
  const reach = (factors: readonly number[]) => Math.max(...factors.map((factor) => Math.abs(Math.log(factor))));
  return {
    causes: likeliest.map(({ cause, before, after }) => ({ cause, before, after })),
    findings: findings
      .map((finding, i) => ({
        words: wordsOf(finding),
        strength: finding.strength,
        factors: likeliest.map(({ place }) => Math.exp(weights[i]?.[place] as number)),
      }))
      .toSorted((a, b) => reach(b.factors) - reach(a.factors)),
  };
}

/** Everything seen in one cylinder that the evidence table knows. */
export function observe(view: EngineView, cylinder: number, isTested: boolean): Finding[] {
  const always = [...observeRenewals(view, cylinder), ...observeChecks(view, cylinder)];
  if (!isTested) return [{ id: "not-tested", strength: 1, slots: {}, renewed: 0 }, ...always];
  const single = [
    observeHeardFromNext(view, cylinder),
    observeRepairEffect(view, cylinder),
    observeWet(view, cylinder),
    observeFirstStroke(view, cylinder),
  ].filter((finding) => finding !== null);
  return [
    ...lessOfCommon([...observeHeard(view, cylinder), ...observeSiblings(view, cylinder)], view, cylinder),
    ...observeCompression(view, cylinder),
    ...single,
    ...observeDoubts(view, cylinder),
    ...observeImprovements(view, cylinder),
    ...always,
  ];
}

/** What is said of the leakage that a cylinder has in common with its siblings. */
const ofCommonLeakage: ReadonlySet<Finding["id"]> = new Set(["all-raised-alike", "rose-together", "heard-crankcase"]);

/**
 * Where a cylinder is weak for a reason that leakage does not explain, what all cylinders leak is the business of all of them
 * and says so much less of what ails this one; and that they leaked before tells nothing of how its compression was tested.
 */
function lessOfCommon(findings: readonly Finding[], view: EngineView, cylinder: number): readonly Finding[] {
  const low = unexplainedLow(view, cylinder);
  if (low === null) return findings;
  return findings.map((one) => {
    if (ofCommonLeakage.has(one.id)) return { ...one, strength: (1 - low.share) * one.strength };
    return one.id === "held-over-tests" ? { ...one, strength: (1 - low.clear) * one.strength } : one;
  });
}

export function wasTested(view: EngineView, cylinder: number): boolean {
  const { byMeasure, unsettled } = view.recent;
  if (Object.values(byMeasure).some((lists) => (lists[cylinder - 1]?.length ?? 0) > 0)) return true;
  if ((unsettled[cylinder - 1]?.length ?? 0) > 0) return true;
  return view.engine.tests.some(
    ({ test }) => test.date <= view.asOf && test.readings.some((reading) => reading.cylinder === cylinder),
  );
}

/** The reasons for (`sign` 1) or against (-1) one cause, strongest first by their log likelihood ratio. */
function reasons(result: Posterior, words: (finding: number) => string, cause: number, sign: 1 | -1): string[] {
  const told: { readonly finding: number; readonly pull: number }[] = [];
  result.weights.forEach((weights, finding) => {
    const pull = sign * (weights[cause] ?? 0);
    if (pull >= worthTelling) told.push({ finding, pull });
  });
  if (told.length === 0) return noReasons as string[];
  return told
    .sort((a, b) => b.pull - a.pull)
    .slice(0, reasonsTold)
    .map((reason) => words(reason.finding));
}

/** The row's words with the slots filled in: numbers as percentages are written. */
function wordsOf(finding: Finding | undefined): string {
  if (finding === undefined) throw new Error("a reason without a finding");
  return evidence[finding.id].words.replace(/\{(\w+)\}/g, (_, slot: string) => {
    const filled = finding.slots[slot];
    if (filled === undefined) throw new Error(`evidence ${finding.id} leaves {${slot}} open`);
    return typeof filled === "number" ? percentInWords(filled) : filled;
  });
}

function classShares(shares: readonly CauseShare[]): Pick<CylinderDiagnosis, "topEnd" | "bottomEnd" | "testSetUp"> {
  let topEnd = 0;
  let bottomEnd = 0;
  let testSetUp = 0;
  for (const { cause, probability } of shares) {
    const repairClass = repairClassOf[cause];
    if (repairClass === "top-end") topEnd += probability;
    else if (repairClass === "bottom-end") bottomEnd += probability;
    else testSetUp += probability;
  }
  return { topEnd, bottomEnd, testSetUp };
}

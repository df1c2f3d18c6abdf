import type { EvidenceId } from "../schema/evidence-ids.ts";
import { type Cause, causes, repairClassOf } from "../schema/words.ts";
import { entropy, mutualInformation } from "../statistics/information.ts";
import type { Question } from "./evidence-row.ts";
import { hypotheses } from "./hypotheses.ts";
import type { CauseTable } from "./table.ts";

/** Tests that may settle a cause, by what the evidence table says that their results tell. */

export const nextTestIds = [
  "re-test",
  "clearance",
  "listen",
  "wet",
  "blow-by",
  "coolant",
  "joint",
  "lift",
  "timing",
  "borescope",
] as const;
export type NextTestId = (typeof nextTestIds)[number];

interface NextTest {
  /** What it is about: the causes that its result speaks for or against. */
  readonly about: readonly Cause[];
  /**
   * Each list holds the rows of which one may be seen, or none of them; the lists are seen apart from each other, so every
   * combination is a result.
   */
  readonly rows: readonly (readonly EvidenceId[])[];
  /** Questions that it answers: a test whose every question was asked since the last repair is not asked for again. */
  readonly answers: readonly Question[];
  /** Working hours, and why so many. (J, on common practice) */
  readonly hours: number;
  readonly effort: string;
}

export const nextTests: Readonly<Record<NextTestId, NextTest>> = {
  "re-test": {
    about: ["test-set-up"],
    rows: [["held-over-tests"]],
    answers: [],
    hours: 0.5,
    effort: "one cylinder of a warm engine, the tester at hand",
  },
  clearance: {
    about: ["exhaust-valve", "inlet-valve", "valve-timing"],
    rows: [["check-valve-clearance-fault", "check-valve-clearance-clear"]],
    answers: ["check-valve-clearance"],
    hours: 1,
    effort: "cover off, measure, adjust, and one test again",
  },
  listen: {
    about: ["exhaust-valve", "inlet-valve", "head-gasket", "rings-or-bore"],
    rows: [["heard-crankcase", "heard-inlet", "heard-exhaust", "heard-coolant", "heard-neighbour", "heard-nowhere"]],
    answers: [],
    hours: 0.7,
    effort: "a leak-down with every opening listened at in turn",
  },
  wet: {
    about: ["rings-or-bore", "piston"],
    rows: [["wet-rise", "wet-no-rise"]],
    answers: ["wet"],
    hours: 0.5,
    effort: "two compression tests of one cylinder",
  },
  "blow-by": {
    about: ["rings-or-bore", "piston"],
    rows: [
      ["check-blow-by-fault", "check-blow-by-clear"],
      ["check-oil-use-fault", "check-oil-use-clear"],
    ],
    answers: ["check-blow-by", "check-oil-use"],
    hours: 1,
    effort: "a flow meter at the vent under load, and the oil book",
  },
  coolant: {
    about: ["head-gasket", "cracked-head-or-block"],
    rows: [
      ["check-combustion-gas-in-coolant-fault", "check-combustion-gas-in-coolant-clear"],
      ["check-cooling-pressure-fault", "check-cooling-pressure-clear"],
    ],
    answers: ["check-combustion-gas-in-coolant", "check-cooling-pressure"],
    hours: 0.8,
    effort: "fluid test with the engine running, then a hand pump on the cold system",
  },
  joint: {
    about: ["head-gasket"],
    rows: [["heard-neighbour"], ["neighbours-leak-together"]],
    answers: [],
    hours: 0.8,
    effort: "a leak-down of two or three cylinders",
  },
  lift: {
    about: ["valve-timing"],
    rows: [["check-valve-lift-fault", "check-valve-lift-clear"]],
    answers: ["check-valve-lift"],
    hours: 1,
    effort: "valve cover off, dial gauge on each valve of two cylinders",
  },
  timing: {
    about: ["valve-timing"],
    rows: [["check-names-valve-timing"]],
    answers: [],
    hours: 2,
    effort: "front cover off, marks and inlet looked at, a test again",
  },
  borescope: {
    about: ["rings-or-bore", "piston", "exhaust-valve", "inlet-valve"],
    rows: [["check-borescope-fault", "check-borescope-clear"]],
    answers: ["check-borescope"],
    hours: 1,
    effort: "plug or injector out, wall, crown and valves looked at",
  },
};

/** What a borescope shows when it shows something: it mostly tells which part it is. */
const seenByBorescope: readonly Cause[] = ["rings-or-bore", "piston", "inlet-valve", "exhaust-valve"];

export interface TestGain {
  readonly id: NextTestId;
  /**
   * Share of what is open that its result is expected to settle, 0 to 1: of the uncertainty of the cause and, counted once
   * more, that of the class of repair, for it is the class that a workshop books.
   */
  readonly share: number;
  readonly hours: number;
  readonly parts: GainParts;
}

/** What a gain is made of, in bits. */
export interface GainParts {
  readonly cause: BitsTold;
  readonly repairClass: BitsTold;
  /** How much of what is told counts: half where an ear has listened before. */
  readonly counts: number;
  /** Results that it may have, each with its chance and what of cause and class would still be open; the likeliest first. */
  readonly results: readonly { readonly seen: readonly EvidenceId[]; readonly chance: number; readonly left: number }[];
}

/** Entropy of a question now, and what of it the result is expected to tell. */
interface BitsTold {
  readonly open: number;
  readonly told: number;
}

/** A second listening by the same ear tells about half of a first one. */
const askedAlready = 0.5;

/**
 * What each test is expected to settle of one cylinder's causes, the most for each hour first: the expected fall of entropy,
 * which is the mutual information of the causes and the result under the evidence table. Source: Lindley, Annals of
 * Mathematical Statistics 27 (1956); one test at a time, as de Kleer & Williams, Artificial Intelligence 32 (1987).
 * @param open probability of each hypothesis
 * @param canShow whether a finding can be made on this cylinder at all: an air-cooled one shows no bubbles
 */
export function testGains(
  open: readonly number[],
  {
    table,
    asked,
    canShow = () => true,
  }: {
    readonly table: CauseTable;
    readonly asked: readonly Question[];
    readonly canShow?: (row: EvidenceId) => boolean;
  },
): readonly TestGain[] {
  const split = sharesByHypothesis(open);
  const shares = sumOver(causes.length, split, (h) => open[h] as number);
  const classes = byClass(shares);
  const [ofCause, ofClass] = [entropy(shares), entropy(classes)];
  const whole = ofCause + ofClass;
  if (whole <= 0) return [];
  return nextTestIds
    .flatMap((id): TestGain[] => {
      const { answers, hours } = nextTests[id];
      if (answers.length > 0 && answers.every((question) => asked.includes(question))) return [];
      const results = resultsOf(id, table, canShow).map(({ seen, given }) => {
        const joint = sumOver(causes.length, split, (h) => (open[h] as number) * (given[h] as number));
        return { seen, joint, ofClass: byClass(joint), chance: joint.reduce((sum, p) => sum + p, 0) };
      });
      const ofResults = (priors: readonly number[], joint: (result: (typeof results)[number]) => readonly number[]) =>
        mutualInformation(
          priors,
          results.map((result) => conditional(joint(result), priors)),
        );
      const cause = { open: ofCause, told: ofResults(shares, (result) => result.joint) };
      const repairClass = { open: ofClass, told: ofResults(classes, (result) => result.ofClass) };
      const counts = (id === "listen" || id === "joint") && asked.includes("heard") ? askedAlready : 1;
      const after = results
        .filter(({ chance }) => chance > 0)
        .map(({ seen, joint, ofClass: classJoint, chance }) => {
          const leftOf = (some: readonly number[]) => entropy(some.map((p) => p / chance));
          return { seen, chance, left: leftOf(joint) + leftOf(classJoint) };
        })
        .toSorted((a, b) => b.chance - a.chance);
      const share = (counts * (cause.told + repairClass.told)) / whole;
      return [{ id, share, hours, parts: { cause, repairClass, counts, results: after } }];
    })
    .toSorted((a, b) => b.share / b.hours - a.share / a.hours);
}

/** A result: the rows that are seen with it, none where nothing of the kind is, and its probability under each hypothesis. */
interface Result {
  readonly seen: readonly EvidenceId[];
  readonly given: readonly number[];
}

function resultsOf(id: NextTestId, table: CauseTable, canShow: (row: EvidenceId) => boolean): readonly Result[] {
  const lists =
    id === "borescope"
      ? [borescopeResults(table)]
      : nextTests[id].rows.map((rows) => listResults(rows.filter(canShow), table));
  return lists.reduce((some, more) =>
    some.flatMap((one) =>
      more.map((other) => ({
        seen: [...one.seen, ...other.seen],
        given: one.given.map((p, h) => p * (other.given[h] as number)),
      })),
    ),
  );
}

/** Results of which one comes, or none: what is left of the probability. Places heard at once count as the loudest. */
function listResults(rows: readonly EvidenceId[], table: CauseTable): Result[] {
  const seen = rows.map((id) => table.rows[id].ofHypotheses);
  const totals = hypotheses.map((_, h) => seen.reduce((sum, of) => sum + (of[h] as number), 0));
  const told = seen.map((of, i) => ({
    seen: [rows[i] as EvidenceId],
    given: of.map((p, h) => p / Math.max(1, totals[h] as number)),
  }));
  return [...told, { seen: [], given: totals.map((total) => Math.max(0, 1 - total)) }];
}

function borescopeResults(table: CauseTable): Result[] {
  const [fault, clear, nothing] = listResults(["check-borescope-fault", "check-borescope-clear"], table) as [
    Result,
    Result,
    Result,
  ];
  const named = listResults(
    seenByBorescope.map((cause) => `check-names-${cause}` as const),
    table,
  );
  const shown = named.map(({ seen, given }) => ({
    seen: seen.length > 0 ? seen : fault.seen,
    given: given.map((p, h) => p * (fault.given[h] as number)),
  }));
  return [...shown, clear, nothing];
}

const repairClasses = [...new Set(Object.values(repairClassOf))];
/** The class of each cause, as a place in `repairClasses`. */
const classOf: readonly number[] = causes.map((cause) => repairClasses.indexOf(repairClassOf[cause]));

/**
 * Whose fault the loss mostly is under each hypothesis, by cause: of two causes at once each bears its part in proportion
 * to its probability alone, as in the shares of a diagnosis.
 */
function sharesByHypothesis(open: readonly number[]): readonly (readonly number[])[] {
  return hypotheses.map(([a, b]) => {
    const of = causes.map(() => 0);
    const [first, second] = [open[a] as number, b === undefined ? 0 : (open[b] as number)];
    const part = first + second > 0 ? first / (first + second) : 0.5;
    of[a] = b === undefined ? 1 : part;
    if (b !== undefined) of[b] = 1 - part;
    return of;
  });
}

function sumOver(count: number, split: readonly (readonly number[])[], weight: (h: number) => number): number[] {
  const sums = Array.from({ length: count }, () => 0);
  split.forEach((of, h) => {
    const w = weight(h);
    of.forEach((p, i) => {
      sums[i] = (sums[i] as number) + w * p;
    });
  });
  return sums;
}

const byClass = (ofCauses: readonly number[]): readonly number[] =>
  repairClasses.map((_, at) => ofCauses.reduce((sum, p, i) => (classOf[i] === at ? sum + p : sum), 0));

const conditional = (joint: readonly number[], priors: readonly number[]): readonly number[] =>
  joint.map((p, i) => ((priors[i] as number) > 0 ? p / (priors[i] as number) : 0));

/** Causes that a test is about and that are still open, in the order of `causes`. */
export const openCauses = (id: NextTestId, isOpen: (cause: Cause) => boolean): readonly Cause[] =>
  causes.filter((cause) => nextTests[id].about.includes(cause) && isOpen(cause));

/** "about half of what is open": a share that a planner understands. */
export function settledWords(share: number): string {
  if (share >= 0.75) return "nearly all that is open";
  if (share >= 0.55) return "most of what is open";
  if (share >= 0.42) return "about half of what is open";
  if (share >= 0.28) return "about a third of what is open";
  if (share >= 0.17) return "about a fifth of what is open";
  return "a little of what is open";
}

import type { IsoDate } from "../schema/facts.ts";
import { median } from "../statistics/quantile.ts";
import { theilSenLine } from "../statistics/theil-sen.ts";
import type { UnexplainedStep, WearObservations } from "./observations.ts";
import type { WearPool } from "./types.ts";

/** A step with the probability that it is true, and not the reading's own fault. */
export interface BelievedStep extends UnexplainedStep {
  readonly believed: number;
}

/** How far the last one, two or three readings after a step are believed, where nothing else was wrong with the test. */
const believedAfter = [0.7, 0.9, 0.95];

const fewestEarlier = 3;
const zLimit = 3;
/** A step must also come to this: points of leakage, or a share of the compression. */
const leastPoints = 5;
const leastCompressionShare = 0.05;

interface FoundStep {
  readonly afterX: number;
  readonly date: IsoDate;
  /** Readings since, which all agree. */
  readonly since: number;
  /** The least weight of theirs, at most 1. */
  readonly trusted: number;
}

interface Course {
  readonly x: number[];
  readonly date: string[];
  /** Badness less the median of the siblings in the same test; of a single cylinder, badness itself. */
  readonly apart: number[];
  readonly badness: number[];
  readonly weight: number[];
  readonly alone: boolean;
}

/**
 * Cylinders that have just stepped away from their siblings for the worse: a burnt valve, a gasket, a broken ring. Only
 * the last one to three readings are looked at. The wear model, which lets an odd reading bend its line little, would
 * take them for odd until more had followed; by then the engine may have stopped.
 *
 * A step counts when each reading since lies beyond 3 standard deviations of what the earlier ones of the same baseline
 * (at least 3) foretell by a robust line, and beyond 5 points of leakage or 5 % of compression, against its siblings and
 * against its own past. Steps at one test are one event. It misses what creeps, which the trend shows, and mistakes for an event the fault of a test that touched one
 * cylinder alone; so it is believed at 0.7 until a second reading, or a second cylinder that stepped at the same test, agrees.
 */
export function worsenings(observations: WearObservations, pool: WearPool): BelievedStep[] {
  const byTest = new Map<string, FoundStep & { readonly cylinders: number[] }>();
  for (const [index, segment] of observations.segments.entries()) {
    if (!segment.current) continue;
    const found = stepOf(courseOf(observations, index), pool);
    if (found === null) continue;
    const key = `${found.afterX} ${found.date} ${found.since} ${found.trusted}`;
    const known = byTest.get(key);
    if (known === undefined) byTest.set(key, { ...found, cylinders: [segment.cylinder] });
    else known.cylinders.push(segment.cylinder);
  }
  return [...byTest.values()].map(({ cylinders, afterX, date, since, trusted }) => {
    // Two cylinders that step together bear each other out as a second test would.
    const witnesses = Math.min(believedAfter.length, since + (cylinders.length > 1 ? 1 : 0));
    const believed = (believedAfter[witnesses - 1] as number) * trusted;
    return { cylinders, afterX, date, to: "worse", believed };
  });
}

function courseOf(observations: WearObservations, segment: number): Course {
  const course = {
    x: [] as number[],
    date: [] as string[],
    apart: [] as number[],
    badness: [] as number[],
    weight: [] as number[],
  };
  for (const test of observations.tests) {
    const at = test.segment.indexOf(segment);
    if (at < 0) continue;
    const siblings = test.badness.filter((_, k) => k !== at);
    if (siblings.length === 0 && observations.cylinders > 1) continue;
    const badness = test.badness[at] as number;
    course.x.push(test.x);
    course.date.push(test.date);
    course.badness.push(badness);
    course.apart.push(badness - (siblings.length === 0 ? 0 : median(siblings)));
    course.weight.push(test.weights[at] as number);
  }
  return { ...course, alone: observations.cylinders === 1 };
}

/** The longest run of readings at the end that all lie beyond what those before foretell. */
function stepOf({ x, date, apart, badness, weight, alone }: Course, pool: WearPool): FoundStep | null {
  const leakDown = pool.measure === "leak-down";
  for (let since = Math.min(believedAfter.length, x.length - fewestEarlier); since >= 1; since--) {
    const n = x.length - since;
    const before = apart.slice(0, n);
    const line = theilSenLine(x.slice(0, n), before);
    const level = median(badness.slice(0, n));
    const own = pool.readingSd ** 2 + (pool.readingShare * Math.max(0, level)) ** 2;
    const sd = Math.sqrt((own + (alone ? pool.testSd ** 2 : 0)) * (1 + 1 / n));
    const least = Math.max(zLimit * sd, leakDown ? leastPoints : leastCompressionShare * Math.abs(level));
    const last = Array.from({ length: since }, (_, k) => n + k);
    const beyond = last.every((i) => {
      // A line through few readings is not to be drawn out: beyond them it is held level unless it worsens.
      const expected = line === null ? median(before) : line.intercept + line.slope * (x[i] as number);
      const fromSiblings = (apart[i] as number) - Math.max(expected, median(before));
      // It must have risen itself: siblings that were mended leave it behind as well.
      return Math.min(fromSiblings, (badness[i] as number) - level) > least;
    });
    if (!beyond) continue;
    const trusted = Math.min(1, ...last.map((i) => weight[i] as number));
    return { afterX: x[n] as number, date: date[n] as string, since, trusted };
  }
  return null;
}

import { nothingPercent } from "../condition/no-leak.ts";
import { median } from "../statistics/quantile.ts";
import type { Finding } from "./bayes.ts";
import { type EngineView, medianOfOthers, ramp, type Standing } from "./engine-view.ts";
import { observeCourse } from "./observe-course.ts";
import { observeNeighbours } from "./observe-neighbours.ts";
import { hasParted } from "./parting.ts";
import { countInWords, percentInWords } from "./words.ts";

/** How far a leakage must stand above its siblings: beyond the repeatability of one tester on one day. */
const standsOutPoints = 3;
const standsOutShare = 0.3;
const standsOutLeast = 2;

/**
 * How much a cylinder leaks, and whether its siblings do: all alike, alone, or a pair of neighbours; and how it came
 * there: all together, in a step, or slowly on its own.
 */
export function observeSiblings(view: EngineView, cylinder: number): Finding[] {
  const own = view.leakDown[cylinder - 1];
  const findings: Finding[] = [];
  const pair = observeNeighbours(view, cylinder);
  if (pair !== null) findings.push(pair);
  if (own == null) return findings;
  const { trust, renewed } = own;

  const sound = 1 - ramp(own.level / view.watchPercent, 0.6, 0.9);
  // Every engine leaks a little: that nothing was read speaks for no cause.
  if (sound > 0 && own.level > nothingPercent) {
    findings.push({
      id: "leakage-sound",
      strength: sound * trust,
      // The level is what lies below: the last reading alone may not.
      slots: { leakage: own.level },
      renewed,
    });
  }
  const held = own.readings.findIndex((reading) => reading.value < view.watchPercent);
  const tests = held === -1 ? own.readings.length : held;
  if (tests >= 2) {
    findings.push({ id: "held-over-tests", strength: tests >= 3 ? 1 : 0.7, slots: { tests: tests }, renewed });
  }

  const others = medianOfOthers(view.leakDown, [cylinder]);
  if (others === null) return findings;
  const above = own.level - others;
  const isAlone = above >= Math.max(standsOutPoints, standsOutShare * others) && own.level >= 0.7 * view.watchPercent;
  // What it always had above them, in proportion, is uneven wear and no news.
  const parting = view.partings[cylinder - 1] ?? null;
  const beyond = parting === null ? above : Math.min(above, parting.beyond);
  if (isAlone && pair === null && beyond >= standsOutLeast) {
    findings.push({
      id: "stands-out",
      strength: ramp(beyond, 1, 9) * trust,
      slots: { leakage: own.latest, others: others },
      renewed,
    });
  }
  findings.push(...observeAllAlike(view, own, others));
  const course = observeCourse(view, own, cylinder);
  // That two go together tells more than that each goes slowly.
  if (course !== null && !(pair !== null && course.id === "slow-own-rise")) findings.push(course);
  return findings;
}

function observeAllAlike(view: EngineView, own: Standing, others: number): Finding[] {
  const measured = view.leakDown.filter((standing) => standing !== null);
  const levels = measured.map((standing) => standing.level);
  const lowest = Math.min(...levels);
  const middle = median(levels);
  // All of them: where one stands out, the others are not raised together with it.
  const isLike = (value: number, of: number) => Math.abs(value - of) < Math.max(standsOutPoints, standsOutShare * of);
  const last = median(measured.map((standing) => standing.latest));
  const areAlike =
    levels.every((level) => isLike(level, middle)) &&
    // A step in the last test is seen before the level follows; one reading alone wanders further.
    measured.every(({ latest }) => Math.abs(latest - last) < 1.5 * Math.max(standsOutPoints, standsOutShare * last)) &&
    !view.partings.some((parting) => parting !== null && hasParted(parting));
  if (!areAlike || lowest < 0.8 * view.watchPercent) return [];
  const { trust, renewed } = own;
  const unlike = (Math.max(...levels) - lowest) / middle;
  const cylinders = countInWords(measured.length);
  const latest = measured.map((standing) => standing.latest);
  const low = percentInWords(Math.min(...latest));
  const high = percentInWords(Math.max(...latest));
  const findings: Finding[] = [
    {
      id: "all-raised-alike",
      strength: ramp(others / view.watchPercent, 0.7, 1.2) * (1 - 0.7 * ramp(unlike, 0.4, 1)) * trust,
      slots: { range: low === high ? low : `${low} to ${high}`, cylinders },
      renewed,
    },
  ];
  // Rises are compared over the span that all cylinders have in common.
  const from = Math.max(...measured.map((standing) => standing.readings.at(-1)?.x ?? 0));
  const first = (standing: Standing) =>
    standing.readings.findLast((reading) => reading.x >= from)?.value ?? standing.latest;
  const rises = measured.map((standing) => standing.latest - first(standing));
  const rise = median(rises);
  if (Math.min(...rises) > 0 && rise >= 2 && Math.abs(own.latest - first(own) - rise) <= Math.max(3, 0.6 * rise)) {
    findings.push({
      id: "rose-together",
      // Half of it was said by their being alike.
      strength: 0.6 * ramp(rise, 1.5, 6) * trust,
      slots: { from: first(own), to: own.latest, cylinders },
      renewed,
    });
  }
  return findings;
}

import type { EvidenceId } from "../schema/evidence-ids.ts";
import type { Place } from "../schema/words.ts";
import { dateWords } from "../wording.ts";
import type { Finding } from "./bayes.ts";
import { type EngineView, medianOfOthers, ramp } from "./engine-view.ts";
import { neighboursTogether } from "./observe-neighbours.ts";
import { hasParted } from "./parting.ts";
import type { RecentReading } from "./recent.ts";
import { causeBit } from "./words.ts";

/** Say of the last tests, latest first: a repeat by the same ear and tester is not independent evidence. */
const sayByAge = [1, 0.5, 0.25] as const;

const sayBeforeParting = 0.15;

/** What is renewed where air came out: a place heard before that repair is no longer heard. */
const partAt: Readonly<Record<Exclude<Place, "none">, number>> = {
  crankcase: causeBit("rings-or-bore"),
  inlet: causeBit("inlet-valve"),
  exhaust: causeBit("exhaust-valve"),
  coolant: causeBit("head-gasket"),
  neighbour: causeBit("head-gasket"),
};

interface Heard {
  strength: number;
  times: number;
  firstIndex: number;
  lastIndex: number;
  date: string;
  renewed: number;
}

/** Air heard in the last three usable leak-down tests of a cylinder, with the cautions of the trade. */
export function observeHeard(view: EngineView, cylinder: number): Finding[] {
  const readings = lastHeard(view, cylinder);
  const found = new Map<string, { readonly place: Place; readonly heard: Heard }>();
  const parting = view.partings[cylinder - 1] ?? null;
  // Air at the crankcase before the leak came says nothing of that leak.
  const heardBefore = (index: number, place: Place) =>
    place === "crankcase" && parting !== null && hasParted(parting) && index >= parting.since ? sayBeforeParting : 1;
  readings.forEach((reading, index) => {
    for (const place of reading.heardAt) {
      // Whoever ticked a place as well did hear something.
      if (place === "none" && reading.heardAt.length > 1) continue;
      const strength =
        (sayByAge[index] ?? 0) * heardBefore(index, place) * reading.trust * clarity(view, place, reading);
      if (strength === 0) continue;
      const key = `${place} ${reading.renewed}`;
      const known = found.get(key)?.heard;
      if (known === undefined) {
        const { date, renewed } = reading;
        found.set(key, { place, heard: { strength, times: 1, firstIndex: index, lastIndex: index, date, renewed } });
      } else {
        known.strength += strength;
        known.times++;
        known.lastIndex = index;
      }
    }
  });
  return Array.from(found.values(), ({ place, heard }) => ({
    id: rowFor(view, cylinder, place),
    strength: heard.strength * (place === "neighbour" ? neighbourSupport(view, cylinder) : 1),
    slots: { when: whenHeard(heard, readings.length) },
    renewed: heard.renewed,
  }));
}

/**
 * Air of the next cylinder that was heard at this one, where both leak: the same opening, listened to from its other side.
 * null: none was, or this cylinder was heard so itself.
 */
export function observeHeardFromNext(view: EngineView, cylinder: number): Finding | null {
  const own = view.leakDown[cylinder - 1] ?? null;
  if (own === null || lastHeard(view, cylinder).some(({ heardAt }) => heardAt.includes("neighbour"))) return null;
  let best: Finding | null = null;
  for (const next of view.neighbours[cylinder - 1] ?? []) {
    const pair = neighboursTogether(view, cylinder, next);
    if (pair === null) continue;
    const heard = lastHeard(view, next)
      .map((reading, index) => (reading.heardAt.includes("neighbour") ? (sayByAge[index] ?? 0) * reading.trust : 0))
      .reduce((sum, say) => sum + say, 0);
    const strength = heard * Math.min(1, pair.strength);
    if (strength > (best?.strength ?? 0)) {
      best = { id: "heard-from-next", strength, slots: { next: String(next) }, renewed: own.renewed };
    }
  }
  return best;
}

/** Places, other than none, where air was heard in the last three usable tests and whose part is not renewed since. */
export function placesHeard(view: EngineView, cylinder: number): Place[] {
  const places: Place[] = [];
  for (const reading of lastHeard(view, cylinder)) {
    for (const place of reading.heardAt) {
      if (place !== "none" && (reading.renewed & partAt[place]) === 0 && !places.includes(place)) places.push(place);
    }
  }
  return places;
}

const lastHeard = (view: EngineView, cylinder: number): readonly RecentReading[] =>
  (view.recent.byMeasure["leak-down"][cylinder - 1] ?? []).slice(0, sayByAge.length);

function rowFor(view: EngineView, cylinder: number, place: Place): EvidenceId {
  if (place === "none") return "heard-nowhere";
  if (place !== "neighbour") return `heard-${place}`;
  return (view.neighbours[cylinder - 1] ?? []).length > 0 ? "heard-neighbour" : "heard-neighbour-far";
}

/** How clearly a sound speaks at this leakage: rings always whisper, a valve never should. */
function clarity(view: EngineView, place: Place, reading: RecentReading): number {
  const relative = reading.value / view.watchPercent;
  if (place === "crankcase") return ramp(relative, 0.6, 1.4);
  if (place === "none") return ramp(relative, 0.9, 1.5);
  return 0.6 + 0.4 * ramp(relative, 0.4, 1);
}

/** Air at the next plug hole is surer where the neighbour leaks too, or was heard from its own side. */
function neighbourSupport(view: EngineView, cylinder: number): number {
  const neighbours = view.neighbours[cylinder - 1] ?? [];
  if (neighbours.length === 0) return 0.6;
  const isShared = neighbours.some((neighbour) => {
    if (lastHeard(view, neighbour).some((reading) => reading.heardAt.includes("neighbour"))) return true;
    const own = view.leakDown[neighbour - 1];
    const others = medianOfOthers(view.leakDown, [cylinder, neighbour]);
    return own != null && own.level >= view.watchPercent && (others === null || own.level >= others + 4);
  });
  return isShared ? 1 : 0.5;
}

function whenHeard(heard: Heard, tests: number): string {
  const before = heard.renewed === 0 ? "" : ", before the last repair";
  const isRunning = heard.lastIndex - heard.firstIndex + 1 === heard.times;
  if (heard.times > 1 && isRunning) return `in ${heard.times} tests running${before}`;
  if (heard.times > 1) return `in ${heard.times} of the last ${tests} tests${before}`;
  return heard.firstIndex === 0 && heard.renewed === 0 ? "in the last test" : `on ${dateWords(heard.date)}${before}`;
}

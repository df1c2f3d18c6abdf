import { takeCourseNews } from "../../db/course-news.ts";
import type { Store } from "../../db/store.ts";
import type { ModelCompared, Sister } from "../../lib/comparison/model-comparison.ts";
import type { TestedUnit, TestersCompared } from "../../lib/comparison/tester-comparison.ts";
import type { JudgedMeasure } from "../../lib/schema/words.ts";

/** What was made of the courses of each unit, and of all of them together. */
export interface Kept<Part, Made> {
  readonly parts: Map<string, Part>;
  /** Units whose courses have to be read, for the first time or again. */
  readonly unread: Set<string>;
  made: Made | null;
}

/** Comparisons that this process made, with what they were made from. */
export interface ComparedSoFar {
  /** By model, measure and meter unit. */
  readonly models: Map<string, Kept<Sister, ModelCompared>>;
  readonly testers: Map<JudgedMeasure, Kept<TestedUnit, TestersCompared>>;
}

/**
 * Parts that a process keeps between two comparisons, a unit's of one measure counted once for its model and once for its
 * tester: some 6 kB for its model, 16 kB for a tester with a dozen tests, so some 220 MB in all. What is beyond is read again each time.
 */
const mostParts = 20_000;

// On globalThis because the bundler may load this file more than once.
const holder = globalThis as { borecastCompared?: WeakMap<Store, ComparedSoFar> };

/** What this process made before, with what changed since marked as unread. Ask while no courses are being written. */
export function comparedSoFar(store: Store): ComparedSoFar {
  const news = takeCourseNews(store);
  holder.borecastCompared ??= new WeakMap();
  const known = holder.borecastCompared.get(store);
  if (known === undefined || news === "all") {
    const none: ComparedSoFar = { models: new Map(), testers: new Map() };
    holder.borecastCompared.set(store, none);
    return none;
  }
  for (const { unread } of allKept(known)) for (const unit of news) unread.add(unit);
  return known;
}

/** Lets go of one comparison's parts where all of them together are too many to keep. */
export function keepWithinBounds<K, P, M>(all: ComparedSoFar, of: Map<K, Kept<P, M>>, key: K): void {
  const parts = allKept(all).reduce((sum, kept) => sum + kept.parts.size, 0);
  if (parts > mostParts) of.delete(key);
}

const allKept = ({ models, testers }: ComparedSoFar): Pick<Kept<unknown, unknown>, "parts" | "unread">[] => [
  ...models.values(),
  ...testers.values(),
];

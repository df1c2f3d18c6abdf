import type { Store } from "./store.ts";

/** What became of courses since somebody last asked. */
interface CourseNews {
  /** Stands for what other processes had committed then; null: all courses were taken away since. */
  others: string | null;
  readonly units: Set<string>;
}

// On globalThis because the bundler may load this file more than once.
const holder = globalThis as { borecastCourseNews?: WeakMap<Store, CourseNews> };

const newsOf = (store: Store): CourseNews | undefined => holder.borecastCourseNews?.get(store);

/** Courses of these units were put in or taken away; nothing is noted while nobody keeps what is made of courses. */
export function noteCourses(store: Store, units: Iterable<string>): void {
  const news = newsOf(store);
  if (news !== undefined) for (const unit of units) news.units.add(unit);
}

/** All courses were taken away. */
export function noteNoCourses(store: Store): void {
  const news = newsOf(store);
  if (news !== undefined) news.others = null;
}

/**
 * Units whose courses were put in or taken away since this was asked last, by this process; "all" where it was never asked,
 * where another process committed anything meanwhile, or where all were taken away. Ask while no such transaction is open.
 */
export function takeCourseNews(store: Store): ReadonlySet<string> | "all" {
  const before = newsOf(store);
  const others = store.othersVersion();
  holder.borecastCourseNews ??= new WeakMap();
  holder.borecastCourseNews.set(store, { others, units: new Set() });
  return before === undefined || before.others !== others ? "all" : before.units;
}

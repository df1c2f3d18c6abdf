import type { IsoDate } from "../schema/facts.ts";
import { figures, readDate, splitTime, weekday } from "./dates.ts";
import type { DateOrder } from "./layout.ts";

/** The order of day, month and year in a column of dates, from what all of its cells show. */

/** What the cells of a column show of the order, in bounded memory however many there are. */
export interface DateEvidence {
  /** A date that needs no order, be it a day number, ISO or with its month in letters; null: none. */
  fixed: string | null;
  /** Dates in figures, by their style and the orders by which they are dates. */
  readonly kinds: Map<string, DateKind>;
}

interface DateKind {
  readonly style: Style;
  readonly orders: readonly DateOrder[];
  /** Whether it makes a difference which of the orders holds. */
  readonly matters: boolean;
  /** Whether the first figure can be nothing but a year: no day or month is 0 or above 31. */
  readonly yearLeads: boolean;
  readonly example: string;
  /** Different cells, up to `mostDistinct`. */
  readonly distinct: Set<string>;
  /** The last date that the cells are by each order. */
  readonly latest: Map<DateOrder, IsoDate>;
}

/** How a date is written: a spreadsheet that turns some dates round writes them otherwise than a person wrote the rest. */
interface Style {
  readonly signs: string;
  /** `03/04` is padded and `3/4` bare; `13/11` tells neither. */
  readonly padding: "padded" | "bare" | "either";
}

const mostDistinct = 200;

export const noDates = (): DateEvidence => ({ fixed: null, kinds: new Map() });

function styleOf(text: string): Style {
  const parts = splitTime(text.trim().replace(weekday, ""));
  const [, a = "", sign = "", b = "", c = ""] = figures.exec(parts?.day ?? "") ?? [];
  const small = [a, b].filter((figure) => Number(figure) < 10);
  const padding = small.length === 0 ? "either" : small.every((figure) => figure.length === 2) ? "padded" : "bare";
  return { signs: `${sign} ${c.length} ${parts?.time === "" ? "" : "time"}`, padding };
}

/** Whether the figure that is written first is a year by its size, as `98` and `00` are. */
function yearLeadsIn(text: string): boolean {
  const figure = Number(/\d+/.exec(text)?.[0]);
  return figure === 0 || figure > 31;
}

/** A string of its own: a cell cut from a block of the file would hold all of that in memory. */
export const ownText = (text: string): string => JSON.parse(JSON.stringify(text)) as string;

/** Adds what a cell shows to the evidence of its column. */
export function addDate(evidence: DateEvidence, text: string): void {
  const read = readDate(text);
  if (read.is === "other") return;
  if (read.is === "date") {
    evidence.fixed ??= ownText(text.trim());
    return;
  }
  const orders = [...read.dates.keys()];
  const style = styleOf(text);
  const matters = new Set(read.dates.values()).size > 1;
  const yearLeads = yearLeadsIn(text);
  const key = [style.signs, style.padding, matters, yearLeads, ...orders].join(" ");
  let kind = evidence.kinds.get(key);
  if (kind === undefined) {
    const example = ownText(text.trim());
    kind = { style, orders, matters, yearLeads, example, distinct: new Set(), latest: new Map() };
    evidence.kinds.set(key, kind);
  }
  if (kind.distinct.size < mostDistinct) kind.distinct.add(ownText(text.trim()));
  for (const [order, date] of read.dates) {
    const day = date.slice(0, 10);
    const latest = kind.latest.get(order);
    if (latest === undefined || latest < day) kind.latest.set(order, day);
  }
}

export type OrderFound =
  | { readonly is: "found"; readonly order: DateOrder; readonly by: string }
  /** No date depends on the order. */
  | { readonly is: "no-matter" }
  /** `likely`: the only order by which no date lies ahead, or that which a single odd cell speaks for; null: none. */
  | {
      readonly is: "ambiguous";
      readonly example: string;
      readonly orders: readonly DateOrder[];
      readonly likely: DateOrder | null;
      /** The cell that speaks for `likely` alone, and may be a slip of the pen; null: none does. */
      readonly by: string | null;
    }
  /** No one order fits all dates. */
  | { readonly is: "contradictory"; readonly examples: readonly [string, string] }
  /** Some dates are written otherwise than the rest: a spreadsheet may have turned them round, and which cannot be told. */
  | { readonly is: "turned"; readonly examples: readonly [string, string] };

/** Of so many different dates that fit both orders, one in this many at least would not, were they spread over months. */
const fewOpen = 7;
const openForEach = 6;

const sameStyle = (a: Style, b: Style) =>
  a.signs === b.signs && (a.padding === b.padding || a.padding === "either" || b.padding === "either");

const countOf = (kinds: readonly DateKind[]) => kinds.reduce((sum, { distinct }) => sum + distinct.size, 0);

/**
 * Cells that are dates by the year first alone and may all the same be days that never were, as 31-11-25. Several that lie
 * behind us are meant so.
 */
function doubtfulYears(kinds: readonly DateKind[], today: IsoDate | null): readonly DateKind[] {
  const byYear = kinds.filter(({ orders, yearLeads }) => orders.join() === "year-first" && !yearLeads);
  const isMeant = today !== null && byYear.every(({ latest }) => (latest.get("year-first") ?? "") <= today);
  return isMeant && countOf(byYear) > 1 ? [] : byYear;
}

/**
 * The order of day, month and year: an order stays as long as each cell is a date by it. Only a cell that is no date by
 * any other is proof, and a day that never was is none. Neither is that no date lies after `today` (null: not known), for
 * dates are mistyped and due dates written down; it makes an answer likely. Nothing is taken from which order is the more
 * usual.
 */
export function findDateOrder({ fixed, kinds }: DateEvidence, today: IsoDate | null): OrderFound {
  const doubtful = doubtfulYears([...kinds.values()], today);
  const all = [...kinds.values()].filter((kind) => !doubtful.includes(kind));
  const open = all.filter(({ orders, matters }) => matters && orders.length > 1);
  const telling = all.filter(({ orders, matters }) => !matters && orders.length === 1);
  let left: readonly DateOrder[] = ["day-first", "month-first", "year-first"];
  let narrowedBy: DateKind | null = null;
  for (const kind of all) {
    const still = left.filter((order) => kind.orders.includes(order));
    if (still.length === 0) return { is: "contradictory", examples: [(narrowedBy ?? kind).example, kind.example] };
    if (still.length < left.length && kind.orders.length === 1) narrowedBy = kind;
    left = still;
  }
  const [first] = [...open, ...telling, ...doubtful];
  const [order] = left;
  if (first === undefined || order === undefined) return { is: "no-matter" };
  if (fixed !== null) return { is: "turned", examples: [fixed, first.example] };
  const [example] = [...open, ...(left.length > 1 ? doubtful : [])];
  if (left.length > 1) {
    if (example === undefined) return { is: "no-matter" };
    const past = left.filter(
      (one) => today === null || [...all, ...doubtful].every(({ latest }) => (latest.get(one) ?? "") <= today),
    );
    const likely = past.length === 1 ? (past[0] ?? null) : null;
    return { is: "ambiguous", example: example.example, orders: left, likely, by: null };
  }
  const by = narrowedBy ?? first;
  if (example === undefined) return { is: "found", order, by: by.example };
  const isVouchedFor = open.some(({ style }) => telling.some((kind) => sameStyle(kind.style, style)));
  if (telling.length > 0 && !isVouchedFor) return { is: "turned", examples: [example.example, by.example] };
  const [openCount, tellingCount] = [countOf(open), countOf(telling)];
  if (openCount >= fewOpen && openCount > openForEach * tellingCount) {
    return {
      is: "ambiguous",
      example: example.example,
      orders: ["day-first", "month-first"],
      likely: order,
      by: by.example,
    };
  }
  return { is: "found", order, by: by.example };
}

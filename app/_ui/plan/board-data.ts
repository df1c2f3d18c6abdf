import { isoWeek } from "../../../lib/calendar.ts";
import { planScopeWords } from "../../../lib/plan/scope-words.ts";
import { mondayOf } from "../../../lib/plan/week-costs.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Booking, ClassWindow, KeptBooking, KeptPlan, PlanScope } from "../../../lib/schema/kept-plan.ts";
import { depotWorkshopOf, type Workshop } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { type PlanView, planAddress } from "./address.ts";
import { lanesOf } from "./lanes.ts";
import { shortScope, weekWords } from "./plan-words.ts";

/** The board as it is drawn: plain data, places in weeks from the first one shown. */
export interface BoardData {
  readonly columns: readonly { readonly monday: IsoDate; readonly week: string; readonly date: string }[];
  readonly depots: readonly BoardDepot[];
}

export interface BoardDepot {
  readonly depot: string;
  readonly says: string;
  readonly lanes: number;
  readonly bars: readonly BoardBar[];
  readonly ghost: Placed | null;
  readonly windows: readonly BoardWindow[];
  readonly closed: readonly Span[];
  readonly peak: readonly Span[];
  readonly load: readonly {
    readonly used: number;
    readonly has: number;
    readonly over: string | null;
    readonly says: string;
  }[];
  /** Hours of the week that has most of them. */
  readonly most: number;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

interface Placed extends Span {
  readonly lane: number;
  readonly text: string;
}

/** The window of the chosen repair; null: beyond what is shown. */
interface BoardWindow {
  readonly part: "top" | "bottom";
  readonly early: number;
  readonly likely: number | null;
  readonly late: number | null;
}

export interface BoardBar extends Placed {
  readonly key: string;
  readonly kind: "top" | "bottom" | "other";
  readonly unit: string;
  readonly scope: PlanScope | null;
  /** Monday of its first week; moving it begins there. */
  readonly start: IsoDate;
  readonly note: string;
  readonly says: string;
  readonly isPinned: boolean;
  readonly isChosen: boolean;
  /** Its words stand beside it. */
  readonly isShort: boolean;
  /** Where it leads to; null: other work, which is not moved here. */
  readonly href: string | null;
}

interface Told {
  readonly plan: KeptPlan;
  readonly bookings: readonly KeptBooking[];
  readonly workshop: Pick<Workshop, "otherWork" | "anyDepot" | "depots">;
  readonly view: PlanView;
  readonly asOf: IsoDate;
  /** The chosen booking where it may be moved to; null: it stays. */
  readonly moved: KeptBooking | null;
}

/** Share of the board that a bar's words take, in per cent: a name and how sure it is. */
const nameShare = 8;

const isShort = (from: number, to: number, weeks: number): boolean => to - from < (weeks * nameShare) / 100;

const dayMs = 86_400_000;

export function boardData(f: Formats, told: Told): BoardData {
  const { plan, view, asOf } = told;
  const weeks = Math.min(view.span, plan.weeks);
  const columns = Array.from({ length: weeks }, (_, week) => {
    const monday = mondayOf(plan.firstMonday, week);
    return { monday, week: String(isoWeek(monday).week), date: f.shortDate(monday, asOf) };
  });
  return { columns, depots: plan.depots.map((of) => boardDepot(f, of, weeks, told)) };
}

function boardDepot(f: Formats, of: KeptPlan["depots"][number], weeks: number, told: Told): BoardDepot {
  const { plan, view, moved, workshop, asOf } = told;
  const isChosen = ({ unit, scope }: Pick<Booking, "unit" | "scope">) =>
    unit === view.unit && (view.scope === null || scope === view.scope);
  const mine = told.bookings.filter(({ depot, week }) => depot === of.depot && week < weeks);
  const shown = mine.map((booking) => (moved !== null && isChosen(booking) ? moved : booking));
  const units = new Set(mine.map(({ unit }) => unit));
  const other = workshop.otherWork.flatMap((work) => {
    const from = (Date.parse(work.date) - Date.parse(plan.firstMonday)) / (7 * dayMs);
    return units.has(work.unit) && from >= 0 && from < weeks
      ? [{ ...work, from, to: from + Math.max(0.4, work.days / 7) }]
      : [];
  });
  const stretches = [
    ...shown.map((booking) => ({ booking, ...stretchOf(booking) })),
    ...other.map((work) => ({ work, from: work.from, to: work.to })),
  ].toSorted((a, b) => a.from - b.from);
  // A name stands beside its bar where that is short.
  const nameWeeks = (weeks * nameShare) / 100;
  const lanes = lanesOf(
    stretches.map(({ from, to }) => ({ from, to: isShort(from, to, weeks) ? to + nameWeeks : to })),
  );
  const bars = stretches.map((stretch, i): BoardBar => {
    const lane = lanes[i] ?? 0;
    if ("work" in stretch) {
      const { unit, what, date } = stretch.work;
      return {
        ...otherBar,
        key: `other ${unit} ${date}`,
        unit,
        start: date,
        from: stretch.from,
        to: Math.min(weeks, stretch.to),
        lane,
        text: unit,
        note: what,
        says: `${unit}, other work${what === "" ? "" : `: ${what}`}, ${f.date(date)}`,
      };
    }
    const { booking, from, to } = stretch;
    const { unit, scope, sure, isPinned, start } = booking;
    return {
      // Not its week: who moves it by keys keeps it.
      key: `${unit} ${scope}`,
      kind: scope === "top-end" ? "top" : "bottom",
      unit,
      scope,
      start,
      from,
      to: Math.min(weeks, to),
      lane,
      text: unit,
      note: isPinned ? "pinned" : sure === null ? shortScope[scope] : f.probability(sure),
      says: `${unit}, ${planScopeWords[scope]}, ${of.depot}, ${weekWords(start, asOf)}, from ${f.date(start)}${sure === null ? "" : `, class ${f.probability(sure)} sure`}${isPinned ? ", pinned" : ""}${booking.overdueSince === undefined ? "" : ", its week has gone by"}`,
      isPinned,
      isChosen: isChosen(booking),
      isShort: isShort(from, to, weeks),
      href: planAddress({ ...view, unit, scope, to: null, split: false }),
    };
  });
  const chosen = mine.find(isChosen);
  const ghost = chosen === undefined || moved === null ? null : stretchOf(chosen);
  return {
    depot: of.depot,
    says: depotSays(f, depotWorkshopOf(workshop, of.depot)),
    lanes: Math.max(1, ...lanes.map((lane) => lane + 1)) + (ghost === null ? 0 : 1) + (chosen === undefined ? 0 : 1),
    bars,
    ghost: ghost === null ? null : { ...ghost, lane: Math.max(0, ...lanes) + 1, text: chosen?.unit ?? "" },
    windows:
      chosen === undefined ? [] : chosen.windows.flatMap((window) => boardWindow(window, plan.firstMonday, weeks)),
    closed: spansWhere(of.weeks.slice(0, weeks), ({ openDays }) => openDays === 0),
    peak: spansWhere(of.weeks.slice(0, weeks), ({ openDays, peakShare }) => openDays > 0 && peakShare > 0),
    ...loadRow(f, of, { bookings: shown, weeks, asOf, firstMonday: plan.firstMonday }),
  };
}

const otherBar = { kind: "other", scope: null, isPinned: false, isChosen: false, isShort: true, href: null } as const;

function depotSays(
  f: Formats,
  { bays, technicians, productiveHoursPerDay, daysPerWeek }: Workshop["anyDepot"],
): string {
  const hours = technicians * productiveHoursPerDay * daysPerWeek;
  return `${f.number(bays)} ${bays === 1 ? "bay" : "bays"}, ${f.number(hours)} h a week`;
}

/** The weeks in which it takes a bay; the last one as far as it takes it. */
function stretchOf({ week, span }: Pick<Booking, "week" | "span">): Span {
  const last = span.findLast(({ bayDays }) => bayDays > 0);
  return last === undefined
    ? { from: week, to: week + 0.5 }
    : { from: week, to: last.week + Math.max(0.4, Math.min(1, last.bayDays / 5)) };
}

function spansWhere<T>(weeks: readonly T[], holds: (week: T) => boolean): readonly Span[] {
  const spans: { from: number; to: number }[] = [];
  for (const [week, of] of weeks.entries()) {
    if (!holds(of)) continue;
    const last = spans.at(-1);
    if (last?.to === week) last.to = week + 1;
    else spans.push({ from: week, to: week + 1 });
  }
  return spans;
}

function boardWindow({ of, p10, p50, p90 }: ClassWindow, firstMonday: IsoDate, weeks: number): readonly BoardWindow[] {
  const at = (date: IsoDate | null): number | null => {
    if (date === null) return null;
    const week = (Date.parse(date) - Date.parse(firstMonday)) / (7 * dayMs);
    return week > weeks ? null : Math.max(0, week);
  };
  const early = at(p10);
  if (early === null) return [];
  return [{ part: of === "topEnd" ? "top" : "bottom", early, likely: at(p50), late: at(p90) }];
}

function loadRow(
  f: Formats,
  of: KeptPlan["depots"][number],
  {
    bookings,
    weeks,
    asOf,
    firstMonday,
  }: {
    readonly bookings: readonly Booking[];
    readonly weeks: number;
    readonly asOf: IsoDate;
    readonly firstMonday: IsoDate;
  },
): Pick<BoardDepot, "load" | "most"> {
  const used = new Float64Array(weeks);
  for (const { span } of bookings)
    for (const { week, hours } of span) if (week < weeks) used[week] = (used[week] as number) + hours;
  const load = Array.from(used, (hours, week) => {
    const has = of.weeks[week]?.hours ?? 0;
    const over = hours - has;
    return {
      used: hours,
      has,
      over: over > 1e-6 ? `+${f.number(over, over < 1 ? 1 : 0)}` : null,
      says: `${weekWords(mondayOf(firstMonday, week), asOf)}: ${f.number(hours)} of ${f.number(has)} h`,
    };
  });
  return { load, most: Math.max(1, ...of.weeks.slice(0, weeks).map(({ hours }) => hours)) };
}

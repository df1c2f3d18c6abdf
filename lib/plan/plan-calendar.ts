import ical, { ICalCalendarMethod } from "ical-generator";
import { addDays } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { ClassWindow, KeptBooking } from "../schema/kept-plan.ts";
import { dateWords, dayWords, listWords, numberWords, probabilityWords, sentenceWords } from "../wording.ts";
import { orderBy } from "./order-by.ts";
import { planScopeWords } from "./scope-words.ts";

/**
 * A plan's bookings as an iCalendar stream (RFC 5545), for a file as for a feed: the same plan gives the same bytes. Days are dates
 * without a time zone: a workshop's Monday is Monday wherever the calendar is read.
 */
export function planCalendar(
  bookings: readonly KeptBooking[],
  {
    name,
    madeAt,
    madeBefore,
    cardOf,
  }: {
    /** Of the calendar as a whole: "Repairs at Lowmarsh". */
    readonly name: string;
    /** Instant at which the plan was made, ISO 8601. */
    readonly madeAt: string;
    /** How many repairs that cure any of the same the unit had before: its next one is another event. */
    readonly madeBefore: (booking: KeptBooking) => number;
    /** Where the job card of a booking lies: the whole address, for a calendar is read elsewhere. */
    readonly cardOf: (booking: KeptBooking) => string;
  },
): string {
  const stamp = new Date(madeAt);
  // Grows with every plan and fits the 32 bits that readers may have for it until 2088 (RFC 5545, section 3.8.7.4).
  const sequence = Math.max(0, Math.floor((stamp.getTime() - Date.UTC(2020, 0, 1)) / 1000));
  const calendar = ical({
    prodId: { company: "Borecast", product: "Plan" },
    // The library writes a calendar's name as it is given.
    name: escapedText(name),
    method: ICalCalendarMethod.PUBLISH,
    ttl: 3600,
  });
  for (const booking of bookings) {
    const { unit, scope, depot, start } = booking;
    calendar.createEvent({
      id: `${encodeURIComponent(unit)}-${scope}-${madeBefore(booking) + 1}@borecast`,
      stamp,
      sequence,
      start,
      // The end is the first day that is no longer part of it (RFC 5545, section 3.6.1).
      end: addDays(lastBayDay(booking), 1),
      allDay: true,
      summary: `${unit} ${planScopeWords[scope]}`,
      location: depot,
      description: descriptionOf(booking, cardOf(booking)),
    });
  }
  // Every line ends so, the last one too (RFC 5545, section 3.1); the library leaves that one open.
  return `${calendar.toString()}\r\n`;
}

/** The last day on which a unit stands in its bay, where each week's working days begin on its Monday; without a bay the first day. */
export function lastBayDay({ start, span }: Pick<KeptBooking, "start" | "span">): IsoDate {
  const first = span[0]?.week ?? 0;
  const last = span.findLast(({ bayDays }) => bayDays > 0);
  return last === undefined ? start : addDays(start, 7 * (last.week - first) + Math.ceil(last.bayDays) - 1);
}

function descriptionOf(booking: KeptBooking, card: string): string {
  const { work, windows, sure, isPinned } = booking;
  return [
    ...windows.map(windowLine),
    ...(sure === null ? [] : [`This class rather than the other: ${probabilityWords(sure)}.`]),
    `Planned: ${numberWords(work.labourHours, Number.isInteger(work.labourHours) ? 0 : 1)} h, ${dayWords(work.bayDays)} in the bay, ${dayWords(work.daysOff)} off the road.`,
    `Order parts by ${dateWords(orderBy(booking))} for this week.`,
    ...(isPinned ? ["Pinned to this week."] : []),
    `Job card: ${card}`,
    "A plan releases nothing to service; the maker's manual and trained people decide.",
  ].join("\n");
}

const classWords = { topEnd: "top-end", bottomEnd: "bottom-end" } as const;

/** "Top-end limit: early 3 Sep 2026, likely 9 Nov 2026, late not foreseen." */
function windowLine({ of, p10, p50, p90 }: ClassWindow): string {
  const dates = [
    ["early", p10],
    ["likely", p50],
    ["late", p90],
  ] as const;
  const told = dates.map(([edge, date]) => `${edge} ${date === null ? "not foreseen" : dateWords(date)}`);
  return `${sentenceWords(classWords[of])} limit: ${listWords(told)}.`;
}

/** Text as RFC 5545, section 3.3.11, wants it. */
const escapedText = (text: string): string =>
  text.replace(/[\\;,]/g, (sign) => `\\${sign}`).replace(/\r\n|\r|\n/g, "\\n");

import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { planCalendar } from "@/lib/plan/plan-calendar.ts";
import type { KeptBooking } from "@/lib/schema/kept-plan.ts";
import { keptBooking } from "../lib/plan/bookings.ts";
import { bottomEnd } from "../lib/plan/problem.ts";

/**
 * A plan's calendar against RFC 5545 (Internet Calendaring and Scheduling Core Object Specification, September 2009): read by ical.js, which
 * shares no code with what writes it, and line by line where the standard speaks of bytes.
 */

const madeAt = "2026-08-31T08:15:30.000Z";
const awkward = "Depot; a, b\\c\nÅr 🛠 and a name so long that its line does not fit into seventy-five octets";

const bookings: readonly KeptBooking[] = [
  keptBooking(),
  // Nine bay days: a week and four days; a unit's name as people type it.
  keptBooking({
    unit: "H 301, öst",
    depot: awkward,
    scope: "bottom-end",
    start: "2026-12-28",
    week: 17,
    work: { ...bottomEnd, bayDays: 9 },
    span: [
      { week: 17, bayDays: 0, hours: 0, daysOff: 7 },
      { week: 18, bayDays: 5, hours: 21, daysOff: 7 },
      { week: 19, bayDays: 4, hours: 17, daysOff: 4 },
    ],
    windows: [{ of: "bottomEnd", p10: "2027-01-02", p50: null, p90: null }],
  }),
  // Without a bay.
  keptBooking({
    unit: "M-601",
    work: { ...bottomEnd, bayDays: 0 },
    span: [{ week: 9, bayDays: 0, hours: 9, daysOff: 4 }],
  }),
];

const calendarOf = (of: readonly KeptBooking[], at = madeAt, before = 0): string =>
  planCalendar(of, {
    name: `Repairs at ${awkward}`,
    madeAt: at,
    madeBefore: () => before,
    cardOf: ({ unit }) => `http://workshop:3000/plan/${encodeURIComponent(unit)}/card`,
  });

// A property of RFC 7986, section 5.1, which the reader does not know: text, as the summary is.
Object.assign(ICAL.design.icalendar.property, { name: ICAL.design.icalendar.property.summary });

const text = calendarOf(bookings);
const parsed = new ICAL.Component(ICAL.parse(text));
const events = parsed.getAllSubcomponents("vevent").map((component) => new ICAL.Event(component));

describe("the stream", () => {
  it("has lines of at most 75 octets that end in CR and LF, none of which parts a character (3.1)", () => {
    expect(text).toMatch(/\r\nEND:VCALENDAR\r\n$/);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    const lines = text.split("\r\n");
    expect(lines.some((line) => line.startsWith(" "))).toBe(true);
    for (const line of lines) {
      expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      expect(Buffer.from(line).toString("utf8")).toBe(line);
    }
  });

  it("names its maker and version (3.7.3, 3.7.4), is published (3.7.2), and tells its name as text (3.3.11)", () => {
    expect(parsed.getFirstPropertyValue("version")).toBe("2.0");
    expect(parsed.getFirstPropertyValue("prodid")).toBe("-//Borecast//Plan//EN");
    expect(parsed.getFirstPropertyValue("method")).toBe("PUBLISH");
    expect(parsed.getFirstPropertyValue("name")).toBe(`Repairs at ${awkward}`);
  });
});

describe("the events", () => {
  it("are as many as the bookings, each with an id of its own (3.8.4.7)", () => {
    expect(events.map(({ uid }) => uid)).toEqual([
      "V-104-top-end-1@borecast",
      "H%20301%2C%20%C3%B6st-bottom-end-1@borecast",
      "M-601-top-end-1@borecast",
    ]);
  });

  it("last from the Monday to the last day in the bay, as dates without a time zone (3.3.4), the end not included (3.6.1)", () => {
    const days = events.map(({ startDate, endDate }) =>
      [startDate, endDate].map((date) => [date.isDate, date.toString()]),
    );
    expect(days).toEqual([
      [
        [true, "2026-11-02"],
        [true, "2026-11-04"],
      ],
      [
        [true, "2026-12-28"],
        // Thursday 14 January is the last day.
        [true, "2027-01-15"],
      ],
      [
        [true, "2026-11-02"],
        [true, "2026-11-03"],
      ],
    ]);
    expect(text).toContain("\r\nDTSTART;VALUE=DATE:20261102\r\n");
    expect(text).not.toContain("TZID");
  });

  it("say what, where, and by which forecast; text comes back as it went in (3.3.11, 3.8.1)", () => {
    expect(events.map(({ summary }) => summary)).toEqual([
      "V-104 top-end repair",
      "H 301, öst bottom-end repair",
      "M-601 top-end repair",
    ]);
    expect(events.map(({ location }) => location)).toEqual(["Lowmarsh", awkward, "Lowmarsh"]);
    expect(events[0]?.description.split("\n")).toEqual([
      "Top-end limit: early 20 Oct 2026, likely 9 Nov 2026 and late 14 Feb 2027.",
      "This class rather than the other: 74 %.",
      "Planned: 14 h, 2 days in the bay, 3 days off the road.",
      "Order parts by 26 Oct 2026 for this week.",
      "Job card: http://workshop:3000/plan/V-104/card",
      "A plan releases nothing to service; the maker's manual and trained people decide.",
    ]);
    expect(events[1]?.description).toContain("early 2 Jan 2027, likely not foreseen and late not foreseen");
  });

  it("are stamped with the instant of the plan in UTC (3.8.7.2), and a later plan's have a higher number (3.8.7.4)", () => {
    const stamps = events.map(({ component }) => String(component.getFirstPropertyValue("dtstamp")));
    expect(new Set(stamps)).toEqual(new Set(["2026-08-31T08:15:30Z"]));
    const later = new ICAL.Event(
      new ICAL.Component(ICAL.parse(calendarOf([keptBooking({ start: "2026-11-09" })], "2026-08-31T08:15:31.000Z")))
        .getAllSubcomponents("vevent")
        .at(0),
    );
    expect(later.uid).toBe(events[0]?.uid);
    expect(later.sequence).toBeGreaterThan(events[0]?.sequence ?? Infinity);
    expect(later.sequence).toBeLessThan(2 ** 31);
    expect(later.startDate.toString()).toBe("2026-11-09");
  });
});

it("gives the same bytes for the same plan, and another id to the next repair of a unit", () => {
  expect(calendarOf(bookings)).toBe(text);
  expect(calendarOf(bookings, madeAt, 1)).toContain("UID:V-104-top-end-2@borecast");
});

it("is a calendar without events where nothing is booked (3.6)", () => {
  const none = new ICAL.Component(ICAL.parse(calendarOf([])));
  expect(none.getAllSubcomponents()).toEqual([]);
});

import type { PlanScope } from "../../../lib/schema/kept-plan.ts";

/** Where the papers lie that a plan hands on. */

export const planAddress = "/plan";

const ofUnit = (paper: "card" | "quote") => (unit: string, scope?: PlanScope) =>
  `/plan/${encodeURIComponent(unit)}/${paper}${scope === undefined ? "" : `?scope=${scope}`}`;

/** The job card of a unit's repair; without a scope, of its first one. */
export const jobCardAddress = ofUnit("card");

/** The quote for it. */
export const quoteAddress = ofUnit("quote");

export const depotNoteAddress = (depot: string): string => `/plan/depots/${encodeURIComponent(depot)}/note`;

/** The calendar of a depot, or of all. */
export const calendarAddress = (depot: string | null): string =>
  depot === null ? "/plan/calendar.ics" : `/plan/calendar/${encodeURIComponent(depot)}.ics`;

export const partsAddress = "/plan/parts";

export const doneAddress = "/plan/done";

export const planTableNames = [
  "bookings",
  "load",
  "not-fitted",
  "dropped",
  "waiting",
  "parts",
  "job-cards",
  "quotes",
  "done",
] as const;
export type PlanTableName = (typeof planTableNames)[number];

/** A table of the plan as a file, of a depot or of all. */
export const planFileAddress = (table: PlanTableName, depot: string | null = null): string =>
  `/plan/csv/${table}${depot === null ? "" : `?depot=${encodeURIComponent(depot)}`}`;

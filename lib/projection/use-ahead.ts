import type { UseForecast } from "./types.ts";

/** Mean use from the as-of date until so many days later. */
export const useWithin = (use: UseForecast, days: number): number => use.perDay * days;

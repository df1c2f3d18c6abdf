import type { IsoDate } from "../lib/schema/facts.ts";

const msPerDay = 86_400_000;

/** Days since 1 January 1970, as columns keep dates that are reckoned with. */
export const dayOf = (date: IsoDate): number => Date.parse(`${date}T00:00:00Z`) / msPerDay;

export const dateOfDay = (day: number): IsoDate => new Date(day * msPerDay).toISOString().slice(0, 10);

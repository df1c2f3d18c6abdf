import type { Store } from "../../db/store.ts";
import { recordAnew, recordDue } from "./record-anew.ts";
import { askFor, type Kept, keepUp, makeIfDue, standingOfKept, type UpkeepStanding } from "./upkeep.ts";

const record: Kept = {
  kind: "record",
  title: "The track record",
  due: recordDue,
  make: (store, now, control) => recordAnew(store, { by: "Borecast", now }, control),
};

/** How the track record stands, as far as this process knows. */
export type RecordStanding = UpkeepStanding;

/** Keeps the track record up to date for as long as this process runs. Returns at once. */
export const keepTrackRecordCurrent = (store: Store, clock: () => Date): void => keepUp(record, store, clock);

/** One look: starts the job that makes the record where it is time to, and gives its id; null: it is not time. */
export const makeRecordIfDue = (store: Store, clock: () => Date): Promise<string | null> =>
  makeIfDue(record, store, clock);

/** Says that somebody looks at the record now: one that is due is made as soon as nothing has just changed. */
export const askForRecord = (store: Store, now: Date): void => askFor(record, store, now);

/** How the record stands, for who looks at it. */
export const recordStanding = (store: Store): Promise<RecordStanding> => standingOfKept(record, store);

import path from "node:path";
import { keepCurrent } from "./app/_jobs/keep-current.ts";
import { keepMoneyCurrent } from "./app/_jobs/money-upkeep.ts";
import { keepTrackRecordCurrent } from "./app/_jobs/track-record-upkeep.ts";
import { appStore } from "./db/app-store.ts";
import { StoreError } from "./db/store-error.ts";

/**
 * Opens the store and brings it up to date. A store that cannot be opened ends the server with one sentence: left to
 * itself it would go on and answer every page with an error. From then on what killed processes left behind is swept
 * away, and assessments, the track record and the budget are kept up to date.
 */
export async function prepareStore(): Promise<void> {
  try {
    const store = await appStore();
    const clock = () => new Date();
    keepCurrent(store, clock, path.join(process.cwd(), "demo-data"));
    keepTrackRecordCurrent(store, clock);
    keepMoneyCurrent(store, clock);
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    console.error(error.message);
    process.exit(1);
  }
}

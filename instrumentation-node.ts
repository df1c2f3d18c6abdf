import { keepCurrent } from "./app/_jobs/keep-current.ts";
import { appStore } from "./db/app-store.ts";
import { sweepStaged } from "./db/import-state.ts";
import { StoreError } from "./db/store-error.ts";

const anHourMs = 3_600_000;

/**
 * Opens the store and brings it up to date, and sweeps away what a killed process left behind; an import that another
 * process is still reading began within the hour. A store that cannot be opened ends the server with one sentence:
 * left to itself it would go on and answer every page with an error. From then on assessments are kept up to date.
 */
export async function prepareStore(now: Date): Promise<void> {
  try {
    const olderThan = new Date(now.getTime() - anHourMs).toISOString();
    const store = await appStore();
    await sweepStaged(store, { olderThan, by: "Borecast", at: now.toISOString() });
    keepCurrent(store, () => new Date());
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    console.error(error.message);
    process.exit(1);
  }
}

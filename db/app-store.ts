import path from "node:path";
import { openStore, type Store } from "./store.ts";

const holder = globalThis as { borecastStore?: Promise<Store> | undefined };

/**
 * The store that this process serves, opened once: in the folder BORECAST_DATA, else ./data. The promise lies on
 * globalThis because the bundler may load this file more than once. After a failure the next call tries again. Throws
 * while the pages are built: what is built must not know what is in the store, nor make one.
 */
export async function appStore(): Promise<Store> {
  if (process.env["NEXT_PHASE"] === "phase-production-build") {
    throw new Error("the store was asked for while the pages are built: await connection() first");
  }
  holder.borecastStore ??= openStore(path.join(process.env["BORECAST_DATA"] || "data", "borecast.db")).catch(
    (error: unknown) => {
      holder.borecastStore = undefined;
      throw error;
    },
  );
  return holder.borecastStore;
}

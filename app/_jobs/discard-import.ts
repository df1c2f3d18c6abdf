import { discardImport as discard, type Outcome } from "../../db/import-state.ts";
import type { Store } from "../../db/store.ts";
import { type Act, doerOf } from "./progress.ts";

/** Gives up a staged import; its rows are deleted batch by batch. */
export const discardImport = (store: Store, importId: string, act: Act): Promise<Outcome<null>> =>
  discard(store, importId, doerOf(act));

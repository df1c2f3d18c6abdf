import type { Store } from "../../db/store.ts";
import { causeCountsFor } from "../../lib/assessment/pools.ts";
import type { CauseCounts } from "../../lib/cause/counts.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import { asFleetPools, keptPools } from "./kept-pools.ts";

/** What strip-downs of an engine model found, as the pools in force count them. */
export const keptCauseCounts = async (store: Store, model: EngineModel): Promise<CauseCounts> =>
  causeCountsFor(asFleetPools(await keptPools(store)), model);

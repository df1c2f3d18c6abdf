import { wearModelVersion } from "../../lib/projection/pool.ts";
import { usePoolVersion } from "../../lib/projection/use.ts";

/** How this program forecasts: what another version fitted, or said of the past, is made anew. */
export const forecastVersion = { wear: wearModelVersion, use: usePoolVersion } as const;

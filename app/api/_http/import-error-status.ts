import type { ImportStateError } from "../../../db/import-state.ts";

/** 404: there is no such import; 409: it is not in a state for this, a later one rests on it, or other data came in meanwhile. */
export const importErrorStatus = ({ code }: ImportStateError): number => (code === "unknown-import" ? 404 : 409);

import loadHighs, { type Highs } from "highs";

/** The solver of mixed-integer programmes; it is loaded once for a thread, from its package's own file. */
let loading: Promise<Highs> | null = null;

export function solver(): Promise<Highs> {
  loading ??= loadHighs();
  return loading;
}

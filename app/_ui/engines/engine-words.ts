import type { EngineWithFittings } from "@/db/engines.ts";

/** How an engine is called: by its number, else by its place among the engines of its unit, which its key tells. */
export const engineName = ({ serial, engine }: Pick<EngineWithFittings, "serial" | "engine">): string =>
  serial ?? engine;

/** The stay that the engine is in now; null: it is in no unit. */
export const stayNow = ({ fittings }: EngineWithFittings) => fittings.findLast((stay) => stay.toDate === null) ?? null;

/** The engine that is in a unit now. */
export const engineNowIn = (unit: string, engines: readonly EngineWithFittings[]): EngineWithFittings | null =>
  engines.findLast((engine) => stayNow(engine)?.unit === unit) ?? null;

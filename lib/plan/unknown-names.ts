import type { Workshop } from "../schema/workshop.ts";

/** What is known of a fleet, by name. */
export interface KnownNames {
  readonly units: ReadonlySet<string>;
  readonly depots: ReadonlySet<string>;
  readonly engineModels: ReadonlySet<string>;
}

export interface UnknownName {
  /** Where in the document it stands. */
  readonly path: readonly (string | number)[];
  readonly message: string;
}

const kinds = {
  units: "unit",
  depots: "depot",
  engineModels: "engine model",
} as const;

/** Units, depots and engine models that a workshop's document names and nobody knows: a plan would pass them over. */
export function unknownNames(workshop: Workshop, known: KnownNames): UnknownName[] {
  const named: readonly (readonly [keyof KnownNames, string, UnknownName["path"]])[] = [
    ...Object.keys(workshop.depots).map((depot) => ["depots", depot, ["depots", depot]] as const),
    ...Object.keys(workshop.spares).map((model) => ["engineModels", model, ["spares", model]] as const),
    ...workshop.groups.flatMap(({ units }, i) =>
      units.map((unit, j) => ["units", unit, ["groups", i, "units", j]] as const),
    ),
    ...workshop.otherWork.map(({ unit }, i) => ["units", unit, ["otherWork", i, "unit"]] as const),
    ...workshop.taken.map(({ depot }, i) => ["depots", depot, ["taken", i, "depot"]] as const),
    ...workshop.pins.map(({ unit }, i) => ["units", unit, ["pins", i, "unit"]] as const),
  ];
  return named.flatMap(([kind, name, path]) => {
    if (known[kind].has(name)) return [];
    const message = `No ${kinds[kind]} ${name} is known: look at how it is written, add it first, or leave it out here.`;
    return [{ path, message }];
  });
}

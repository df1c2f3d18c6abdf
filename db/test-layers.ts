import { layered, testColumns } from "./fact-kinds.ts";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";

export type TestRow = Schema["tests"]["$inferSelect"];
export type ReadingRow = Schema["readings"]["$inferSelect"];

/** What one import says of one test. */
export interface TestLayer {
  readonly test: TestRow;
  readonly readings: readonly ReadingRow[];
  /** Place in the order of commits. */
  readonly rank: number;
  /** Whether what it changes was taken. */
  readonly takeChanges: boolean;
}

export interface StandingReading {
  readonly reading: ReadingRow;
  readonly layer: TestLayer;
}

/** A test as it stands over all its layers. */
export interface StandingTest {
  /** The row that stands first; `told` is what it and those below it say. */
  readonly top: TestLayer;
  readonly told: Readonly<Record<string, unknown>>;
  /** By cylinder, ascending. */
  readonly readings: ReadonlyMap<number, StandingReading>;
}

const isDeclined = (row: { standing: number }, layer: TestLayer) =>
  row.standing === standing.changed && !layer.takeChanges;
const counts = (reading: ReadingRow, layer: TestLayer) =>
  reading.standing <= standing.changed && !isDeclined(reading, layer);

/**
 * Lays what imports say of one test over each other: the last committed first, what it leaves blank from those
 * below. A row of a test whose changes were declined stands last, for when it is all that is left. null: no reading
 * stands, so there is no test.
 */
export function standingTest(layers: readonly TestLayer[]): StandingTest | null {
  const ordered = layers.length === 1 ? layers : [...layers].sort(byPrecedence);
  const byCylinder = new Map<number, StandingReading[]>();
  for (const layer of ordered) {
    for (const reading of layer.readings) {
      if (!counts(reading, layer)) continue;
      const of = byCylinder.get(reading.cylinder);
      if (of) of.push({ reading, layer });
      else byCylinder.set(reading.cylinder, [{ reading, layer }]);
    }
  }
  if (byCylinder.size === 0) return null;
  const readings = new Map<number, StandingReading>();
  for (const cylinder of [...byCylinder.keys()].sort((a, b) => a - b)) {
    readings.set(cylinder, overlaid(byCylinder.get(cylinder)!));
  }
  const told =
    ordered.length === 1
      ? ordered[0]!.test
      : layered(
          ordered.map(({ test }) => test),
          testColumns,
        );
  return { top: ordered[0]!, told, readings };
}

function byPrecedence(a: TestLayer, b: TestLayer): number {
  return Number(isDeclined(a.test, a)) - Number(isDeclined(b.test, b)) || b.rank - a.rank;
}

/** A supply and a first stroke are read in the unit of the value, so they only hold beside one in the same unit. */
function overlaid(layers: readonly StandingReading[]): StandingReading {
  const first = layers[0]!;
  if (layers.length === 1) return first;
  const rows = layers.map(({ reading }) => reading);
  const sameUnit = rows.filter(({ valueUnit }) => valueUnit === first.reading.valueUnit);
  const reading = {
    ...first.reading,
    ...layered(sameUnit, ["supply", "firstStroke"]),
    ...layered(rows, ["heardAt", "order", "remarks"]),
  };
  return { reading, layer: first.layer };
}

const readingColumns = ["value", "valueUnit", "supply", "firstStroke", "heardAt", "order", "remarks"] as const;

/** Whether two readings say the same, wherever they were read. */
export const sameReading = (a: ReadingRow, b: ReadingRow): boolean =>
  readingColumns.every((column) => a[column] === b[column]);

export const sameTold = (a: StandingTest, b: StandingTest): boolean =>
  testColumns.every((column) => a.told[column] === b.told[column]);

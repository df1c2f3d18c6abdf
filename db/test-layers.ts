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
  /** Whether what it leaves blank is blank, of the test and of the readings that it tells (`tellsWhole`). */
  readonly whole: boolean;
}

type TestHead = Pick<TestLayer, "test" | "takeChanges" | "whole">;

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

/**
 * Lays what imports say of one test over each other, in the order of their commits: an import whose changes were taken
 * stands over those before it, which tell what it leaves blank unless it is told whole; one whose changes were declined
 * tells only what none before it tells. Nothing but the layers decides, not what they were once compared with: a layer that is gone might as
 * well never have been. null: no reading stands, so there is no test.
 */
export function standingTest(layers: readonly TestLayer[]): StandingTest | null {
  const only = layers.length === 1 ? layers[0] : undefined;
  if (only !== undefined) return toldByOne(only);
  const ascending = [...layers].sort((a, b) => a.rank - b.rank);
  // Each with the row that stands first in front.
  const byCylinder = new Map<number, StandingReading[]>();
  let heads: readonly TestLayer[] = [];
  for (const layer of ascending) {
    const isFirst = byCylinder.size === 0;
    for (const reading of layer.readings) layReading(byCylinder, reading, layer);
    if (byCylinder.size === 0) continue;
    heads = isFirst ? [layer] : laidOver(heads, layer);
  }
  if (byCylinder.size === 0) return null;
  const readings = new Map<number, StandingReading>();
  for (const cylinder of [...byCylinder.keys()].sort((a, b) => a - b)) {
    readings.set(cylinder, overlaid(byCylinder.get(cylinder)!));
  }
  return { top: heads[0]!, told: toldBy(heads), readings };
}

/** What most tests are: told by one import. */
function toldByOne(layer: TestLayer): StandingTest | null {
  const rows = layer.takeChanges
    ? [...layer.readings]
    : layer.readings.filter((reading) => reading.standing !== standing.withChanges);
  if (rows.length === 0) return null;
  const readings = new Map<number, StandingReading>();
  for (const reading of rows.sort((a, b) => a.cylinder - b.cylinder))
    readings.set(reading.cylinder, { reading, layer });
  return { top: layer, told: layer.test, readings };
}

function layReading(byCylinder: Map<number, StandingReading[]>, reading: ReadingRow, layer: TestLayer): void {
  const before = byCylinder.get(reading.cylinder);
  if (before === undefined) {
    if (layer.takeChanges || reading.standing !== standing.withChanges) {
      byCylinder.set(reading.cylinder, [{ reading, layer }]);
    }
    return;
  }
  if (!layer.takeChanges) return;
  const after = [{ reading, layer }, ...(layer.whole ? [] : before)];
  if (!sameReading(overlaid(before).reading, overlaid(after).reading)) byCylinder.set(reading.cylinder, after);
}

/** Heads of a test that stand, the one that stands first in front, with another that was committed later. */
function laidOver<H extends TestHead>(heads: readonly H[], head: H): readonly H[] {
  if (!head.takeChanges) return heads;
  const over = [head, ...(head.whole ? [] : heads)];
  return sameTold(toldBy(heads), toldBy(over)) ? heads : over;
}

/** What the heads of one test tell, given in the order of their commits; at least one. */
export function toldByHeads(ascending: readonly TestHead[]): Readonly<Record<string, unknown>> {
  let heads = ascending.slice(0, 1);
  for (const head of ascending.slice(1)) heads = [...laidOver(heads, head)];
  return toldBy(heads);
}

const toldBy = (heads: readonly TestHead[]): Readonly<Record<string, unknown>> =>
  heads.length === 1
    ? heads[0]!.test
    : layered(
        heads.map(({ test }) => test),
        testColumns,
      );

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

export const sameTold = (a: StandingTest["told"], b: StandingTest["told"]): boolean =>
  testColumns.every((column) => a[column] === b[column]);

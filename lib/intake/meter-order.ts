import type { IsoDate } from "../schema/facts.ts";

/** A reading of a unit's meter, whatever row it came with. */
export interface MeterRow {
  readonly date: IsoDate;
  readonly meter: number;
  /** The first reading of a new meter. */
  readonly reset: boolean;
  /** Taken in an earlier import: it stands, and others are judged against it. */
  readonly known: boolean;
  readonly file: string;
  readonly line: number;
}

/** A row that makes the meter run backwards, and the reading that it stands against. */
export interface MeterBreach<Row extends MeterRow> {
  readonly row: Row;
  /** `backwards`: lower than an earlier reading. `ahead`: higher than a later one that is known already. */
  readonly kind: "backwards" | "ahead";
  readonly against: Row;
}

const lowest = <Row extends MeterRow>(rows: readonly Row[]): Row | null =>
  rows.reduce<Row | null>((low, row) => (low === null || row.meter < low.meter ? row : low), null);

/** Ascending by date, then by what decides between rows of one date, so that the order of rows never matters. */
const byDate = (a: MeterRow, b: MeterRow) => {
  if (a.date !== b.date) return a.date < b.date ? -1 : 1;
  if (a.meter !== b.meter) return a.meter - b.meter;
  if (a.file !== b.file) return a.file < b.file ? -1 : 1;
  return a.line - b.line;
};

function dateGroups<Row extends MeterRow>(rows: readonly Row[]): readonly (readonly Row[])[] {
  const groups: Row[][] = [];
  for (const row of [...rows].sort(byDate)) {
    const group = groups[groups.length - 1];
    if (group !== undefined && group[0]?.date === row.date) group.push(row);
    else groups.push([row]);
  }
  return groups;
}

/**
 * The rows of one unit that must be refused because its meter would run backwards (contract, section 3). Dates decide,
 * not the order of rows; readings of one date are taken as equal. A row is refused when it is lower than the highest
 * reading of an earlier date since the last reset; on the date of a reset it may be of either meter. A row that was
 * `known` is never refused: instead new rows of earlier dates may not stand above it. Misleading where a single reading
 * was typed far too high: then it stands and the true ones after it are refused, each naming it.
 */
export function meterBreaches<Row extends MeterRow>(rows: readonly Row[]): readonly MeterBreach<Row>[] {
  const groups = dateGroups(rows);
  const breaches = new Map<Row, MeterBreach<Row>>();

  let knownAhead: Row | null = null;
  for (const group of [...groups].reverse()) {
    for (const row of group) {
      if (row.known || row.reset || knownAhead === null || row.meter <= knownAhead.meter) continue;
      breaches.set(row, { row, kind: "ahead", against: knownAhead });
    }
    const known = group.filter((row) => row.known);
    knownAhead = group.some((row) => row.reset) ? null : lowest(knownAhead === null ? known : [...known, knownAhead]);
  }

  let last: Row | null = null;
  for (const group of groups) {
    const newMeter = lowest(group.filter((row) => row.reset));
    let highest: Row | null = last;
    for (const row of group) {
      if (row.reset || breaches.has(row)) continue;
      const fits = last === null || row.meter >= last.meter || (newMeter !== null && row.meter >= newMeter.meter);
      if (!fits && !row.known && last !== null) breaches.set(row, { row, kind: "backwards", against: last });
      else if (!fits || highest === null || row.meter > highest.meter) highest = row;
    }
    last = newMeter ?? highest;
  }
  return [...breaches.values()].sort((a, b) => byDate(a.row, b.row));
}

import type { TestFact } from "../schema/facts.ts";
import type { Proposal } from "../schema/intake.ts";
import type { CellCorrection } from "../schema/reading.ts";
import type { MeterUnit } from "../schema/words.ts";
import { correctTest } from "./correct-cells.ts";
import type { MeterBreach, MeterRow } from "./meter-order.ts";
import { type MeterMeant, meterMeant } from "./meter-proposals.ts";
import { proposalWords } from "./odd-words.ts";
import type { RowPlace } from "./unit-rows.ts";

/** What a row that makes the meter run backwards may have meant, as proposals for the file that it stands in. */
export interface MeantInstead {
  readonly ofTest: (test: TestFact, file: string) => readonly Proposal[];
  /** Of a repair, a check or a reading of the meter. */
  readonly ofRow: (fact: RowPlace & { readonly meterReset?: boolean }) => readonly Proposal[];
}

/**
 * Proposals for the breaches of one unit: another figure where one is sure, else that the meter was replaced. `rows`:
 * all readings of the unit's meter, known or new. A row that stands above what is known of a later day is not offered
 * a new meter, which would not help it.
 */
export function meterOffers<Row extends MeterRow>(
  rows: readonly Row[],
  breaches: readonly MeterBreach<Row>[],
  { unit, meterUnit }: { readonly unit: string; readonly meterUnit: MeterUnit | null },
): (breach: MeterBreach<Row>) => MeantInstead {
  const refused = new Set(breaches.map(({ row }) => row));
  const standing = rows.filter((row) => !refused.has(row)).sort((a, b) => (a.date < b.date ? -1 : 1));
  return ({ row, kind, against }) => {
    const meant = kind === "backwards" ? meterMeant({ ...around(standing, row, against), unit: meterUnit }) : [];
    const offers = (cells: (value: string) => readonly CellCorrection[]) =>
      meant.map((one): Proposal => ({ kind: one.kind, words: said(one, meterUnit), cells: cells(String(one.meter)) }));
    const isReset = kind === "backwards" && meant.length === 0;
    const reset = { kind: "meter-reset", words: proposalWords.meterReset(row.date) } as const;
    const told = { unit, date: row.date, meter: row.meter };
    const newMeter = ({ line, meterReset }: { readonly line?: number; readonly meterReset?: boolean }): Proposal[] => {
      if (!isReset || meterReset === true) return [];
      if (line === undefined || meterReset === undefined) return [{ ...reset, cells: [], reset: told }];
      const cells = ["", "no", "n"].map((was) => ({ line, column: "meter_reset", was, value: "yes" }));
      return [{ ...reset, cells }];
    };
    return {
      ofTest: (test, file) => [
        ...offers((value) => correctTest(test, file, { column: "meter", was: String(row.meter), value })),
        ...newMeter({}),
      ],
      ofRow: (fact) => [
        ...offers((value) => [{ line: fact.line, column: "meter", was: String(row.meter), value }]),
        ...newMeter(fact),
      ],
    };
  };
}

function around<Row extends MeterRow>(standing: readonly Row[], reading: Row, last: Row) {
  const before = standing.filter((row) => row.date < reading.date);
  const lastReset = before.findLastIndex((row) => row.reset);
  const first = before[Math.max(0, lastReset)] ?? last;
  const next = standing.find((row) => row.date > reading.date && !row.reset) ?? null;
  const isSameMeter = next !== null && !standing.some((r) => r.reset && r.date > last.date && r.date <= next.date);
  return { reading, last, first, next: isSameMeter ? next : null };
}

const said = (meant: MeterMeant, unit: MeterUnit | null): string =>
  meant.kind === "meter-digits"
    ? proposalWords.meterIs(meant.meter, unit ?? "")
    : proposalWords.meterConverted(meant.meter, meant.from, unit ?? "");

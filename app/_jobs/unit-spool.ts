import { randomUUID } from "node:crypto";
import { closeSync, openSync, readSync, unlinkSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import {
  type UnitRow,
  type UnitRowKind,
  type UnitRows,
  unitCollector,
  unitRowKinds,
} from "../../lib/intake/unit-rows.ts";
import type { IntakeChunk } from "../../lib/schema/intake.ts";
import { lineOf, rowOf } from "./spooled-rows.ts";

export interface UnitSpool {
  /** Takes the rows of units that a chunk holds. */
  readonly add: (chunk: Pick<IntakeChunk, UnitRowKind>) => void;
  /** The units that the rows so far tell of. */
  readonly units: () => ReadonlySet<string>;
  /**
   * All rows, unit by unit, in an order that hangs on the units' names alone; a batch holds about as many readings as
   * are written at a time. Call once, after the last `add`.
   */
  readonly batches: () => Generator<readonly UnitRows[]>;
  readonly close: () => void;
}

/** Units are told apart by a hash into so many parts, of which one at a time is brought back into memory. */
const parts = 256;
/** So many rows of usual length (`weightOf`) are held as they are; beyond that, all that is held is written to a file. */
const mostHeld = 100_000;
/** Bytes that a reading without remarks takes, about. */
const usualLength = 100;
const batchReadings = 8000;

function partOf(unit: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < unit.length; i++) hash = Math.imul(hash ^ unit.charCodeAt(i), 0x01000193);
  return (hash >>> 0) % parts;
}

interface Part {
  rows: (readonly [UnitRowKind, UnitRow])[];
  /** Where its earlier rows lie in the file. */
  readonly segments: { readonly at: number; readonly bytes: number }[];
}

const emptyPart = (): Part => ({ rows: [], segments: [] });

/**
 * Brings the rows of each unit together, however they are spread over files, in memory that does not grow with the
 * files: what is too much is written to a file of the system's temporary folder. That file has no name from the moment
 * it is opened, so that it is gone when the process is, whatever ends it.
 */
export function unitSpool(most = mostHeld): UnitSpool {
  const all: Part[] = Array.from({ length: parts }, emptyPart);
  const names = new Set<string>();
  let held = 0;
  let file: number | null = null;
  let end = 0;

  const openFile = (): number => {
    const name = path.join(tmpdir(), `borecast-${randomUUID()}`);
    const opened = openSync(name, "wx+", 0o600);
    unlinkSync(name);
    return opened;
  };
  const spill = (part: Part) => {
    if (part.rows.length === 0) return;
    file ??= openFile();
    const bytes = Buffer.from(part.rows.map(([kind, row]) => lineOf(kind, row)).join("\n"));
    // A disk that is nearly full may take a part of it, and says so only at the next.
    for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at, bytes.length - at, end + at);
    part.segments.push({ at: end, bytes: bytes.length });
    end += bytes.length;
    part.rows = [];
  };
  const rowsOf = function* (part: Part) {
    for (const { at, bytes } of part.segments) {
      const buffer = Buffer.allocUnsafe(bytes);
      const read = file === null ? 0 : readSync(file, buffer, 0, bytes, at);
      if (read !== bytes) throw new Error(`${read} of ${bytes} bytes came back from the temporary file`);
      for (const line of buffer.toString("utf8").split("\n")) yield rowOf(line);
    }
    yield* part.rows;
  };

  return {
    units: () => names,
    add: (chunk) => {
      for (const kind of unitRowKinds) {
        for (const fact of chunk[kind]) {
          names.add(fact.unit);
          (all[partOf(fact.unit)] as Part).rows.push([kind, fact]);
          held += weightOf(fact);
        }
      }
      if (held <= most) return;
      for (const part of all) spill(part);
      held = 0;
    },
    batches: function* () {
      let batch: UnitRows[] = [];
      let readings = 0;
      for (const [i, part] of all.entries()) {
        const units = unitsOf(rowsOf(part));
        all[i] = emptyPart();
        for (const rows of units) {
          batch.push(rows);
          readings += sizeOf(rows);
          if (readings < batchReadings) continue;
          yield batch;
          batch = [];
          readings = 0;
        }
      }
      if (batch.length > 0) yield batch;
    },
    close: () => {
      if (file !== null) closeSync(file);
      file = null;
    },
  };
}

/** How many rows of usual length it takes as much memory as; remarks alone may be long. */
function weightOf(row: UnitRow): number {
  const ofRemarks = (remarks: string | null) => (remarks === null ? 0 : remarks.length / usualLength);
  if (!("readings" in row)) return 1 + ("remarks" in row ? ofRemarks(row.remarks) : 0);
  return row.readings.reduce((sum, { remarks }) => sum + 1 + ofRemarks(remarks), 0);
}

function unitsOf(rows: Iterable<readonly [UnitRowKind, UnitRow]>): readonly UnitRows[] {
  const units = unitCollector();
  for (const [kind, row] of rows) units.add(kind, row);
  return units.all();
}

const sizeOf = ({ tests, units, repairs, meterReadings, checks, judgements }: UnitRows): number =>
  tests.reduce((sum, test) => sum + test.readings.length, 0) +
  units.length +
  repairs.length +
  meterReadings.length +
  checks.length +
  judgements.length;

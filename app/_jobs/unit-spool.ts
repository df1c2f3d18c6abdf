import { randomUUID } from "node:crypto";
import { type FileHandle, open, unlink } from "node:fs/promises";
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

export interface UnitSpool {
  /** Takes the rows of units that a chunk holds. */
  readonly add: (chunk: Pick<IntakeChunk, UnitRowKind>) => Promise<void>;
  /** The units that the rows so far tell of. */
  readonly units: () => ReadonlySet<string>;
  /**
   * All rows, unit by unit, in an order that hangs on the units' names alone; a batch holds about as many readings as
   * are written at a time. Call once, after the last `add`.
   */
  readonly batches: () => AsyncGenerator<readonly UnitRows[]>;
  readonly close: () => Promise<void>;
}

/** Units are told apart by a hash into so many parts, of which one at a time is held in memory. */
const parts = 256;
const partLength = 1 << 16;
const batchReadings = 8000;

function partOf(unit: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < unit.length; i++) hash = Math.imul(hash ^ unit.charCodeAt(i), 0x01000193);
  return (hash >>> 0) % parts;
}

interface Part {
  lines: string[];
  length: number;
  /** Where its earlier lines lie in the file. */
  readonly segments: { readonly at: number; readonly bytes: number }[];
}

/**
 * Brings the rows of each unit together, however they are spread over files, in memory that does not grow with the
 * files: what is too much is written to a file of the system's temporary folder. That file has no name from the moment
 * it is opened, so that it is gone when the process is, whatever ends it.
 */
export function unitSpool(): UnitSpool {
  const all: Part[] = Array.from({ length: parts }, () => ({ lines: [], length: 0, segments: [] }));
  const names = new Set<string>();
  let file: FileHandle | null = null;
  let end = 0;

  const openFile = async (): Promise<FileHandle> => {
    const name = path.join(tmpdir(), `borecast-${randomUUID()}`);
    const opened = await open(name, "wx+", 0o600);
    await unlink(name);
    return opened;
  };
  const spill = async (part: Part) => {
    file ??= await openFile();
    const bytes = Buffer.from(part.lines.join("\n"));
    await file.write(bytes, 0, bytes.length, end);
    part.segments.push({ at: end, bytes: bytes.length });
    end += bytes.length;
    part.lines = [];
    part.length = 0;
  };
  const linesOf = async (part: Part): Promise<string[]> => {
    const lines: string[] = [];
    for (const { at, bytes } of part.segments) {
      const buffer = Buffer.alloc(bytes);
      await file?.read(buffer, 0, bytes, at);
      for (const line of buffer.toString("utf8").split("\n")) lines.push(line);
    }
    return [...lines, ...part.lines];
  };

  return {
    units: () => names,
    add: async (chunk) => {
      const touched = new Set<Part>();
      for (const kind of unitRowKinds) {
        for (const fact of chunk[kind]) {
          const part = all[partOf(fact.unit)] as Part;
          names.add(fact.unit);
          const line = JSON.stringify([kind, fact]);
          part.lines.push(line);
          part.length += line.length;
          touched.add(part);
        }
      }
      for (const part of touched) if (part.length > partLength) await spill(part);
    },
    batches: async function* () {
      let batch: UnitRows[] = [];
      let readings = 0;
      for (const [i, part] of all.entries()) {
        const units = unitsOf(await linesOf(part));
        all[i] = { lines: [], length: 0, segments: [] };
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
    close: async () => {
      await file?.close();
      file = null;
    },
  };
}

function unitsOf(lines: readonly string[]): readonly UnitRows[] {
  const units = unitCollector();
  for (const line of lines) {
    // Written above, from rows of these kinds.
    const [kind, row] = JSON.parse(line) as [UnitRowKind, UnitRow];
    units.add(kind, row);
  }
  return units.all();
}

const sizeOf = ({ tests, units, repairs, meterReadings, checks, judgements }: UnitRows): number =>
  tests.reduce((sum, test) => sum + test.readings.length, 0) +
  units.length +
  repairs.length +
  meterReadings.length +
  checks.length +
  judgements.length;

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type MeterRow, meterBreaches } from "@/lib/intake/meter-order.ts";

let lines = 0;
const at = (date: string, meter: number, also: Partial<MeterRow> = {}): MeterRow => {
  lines += 1;
  return { date, meter, reset: false, known: false, file: "a.csv", line: lines, ...also };
};
const refusedMeters = (rows: readonly MeterRow[]) =>
  meterBreaches(rows).map((b) => [b.kind, b.row.meter, b.against.meter]);

describe("the order of a unit's meter", () => {
  it("refuses a reading that is lower than one before, naming the highest", () => {
    expect(refusedMeters([at("2026-01-01", 100), at("2026-02-01", 212_400), at("2026-03-01", 35)])).toEqual([
      ["backwards", 35, 212_400],
    ]);
  });
  it("goes on from a reset", () => {
    const reset = at("2026-03-01", 35, { reset: true });
    expect(refusedMeters([at("2026-02-01", 212_400), reset, at("2026-04-01", 900)])).toEqual([]);
    expect(refusedMeters([at("2026-02-01", 212_400), reset, at("2026-04-01", 900), at("2026-05-01", 800)])).toEqual([
      ["backwards", 800, 900],
    ]);
  });
  it("takes either meter on the date of a reset", () => {
    const day = [at("2026-03-01", 212_450), at("2026-03-01", 35, { reset: true }), at("2026-03-01", 36)];
    expect(refusedMeters([at("2026-02-01", 212_400), ...day])).toEqual([]);
  });
  it("takes readings of one date as equal, and equal readings of two dates", () => {
    expect(refusedMeters([at("2026-01-01", 101), at("2026-01-01", 100), at("2026-01-02", 101)])).toEqual([]);
  });
  it("never refuses what is known: new rows of earlier dates may not stand above it", () => {
    const known = at("2026-03-01", 500, { known: true });
    expect(refusedMeters([at("2026-02-01", 600), known, at("2026-04-01", 550)])).toEqual([["ahead", 600, 500]]);
    expect(refusedMeters([at("2026-04-01", 400), known])).toEqual([["backwards", 400, 500]]);
    expect(refusedMeters([at("2026-02-01", 600), at("2026-02-15", 1, { reset: true }), known])).toEqual([]);
  });

  const row = fc.record({
    date: fc.constantFrom("2026-01-01", "2026-01-02", "2026-01-03", "2026-01-04", "2026-01-05"),
    meter: fc.integer({ min: 0, max: 6 }),
    reset: fc.boolean(),
  });
  it("does not depend on the order of rows, and what is left ascends between resets", () => {
    fc.assert(
      fc.property(fc.array(row, { maxLength: 12 }), fc.func(fc.integer()), (given, rank) => {
        const rows = given.map((r, i): MeterRow => ({ ...r, known: false, file: "a.csv", line: i + 1 }));
        const refused = new Set(meterBreaches(rows).map((b) => b.row.line));
        const shuffled = [...rows].sort((a, b) => rank(a.line) - rank(b.line));
        expect(new Set(meterBreaches(shuffled).map((b) => b.row.line))).toEqual(refused);
        // Between two resets every accepted reading is at least as high as all accepted ones of earlier dates.
        const left = rows.filter((r) => !refused.has(r.line));
        const resets = left.filter((r) => r.reset).map((r) => r.date);
        for (const a of left) {
          for (const b of left) {
            if (b.reset || a.date >= b.date || resets.some((d) => a.date <= d && d <= b.date)) continue;
            expect(b.meter).toBeGreaterThanOrEqual(a.meter);
          }
        }
      }),
    );
  });
});

import { describe, expect, it } from "vitest";
import { type BookedPaper, jobCardsTable, quotesTable } from "@/app/_ui/plan-papers/paper-files.ts";
import type { CsvTable } from "@/lib/outtake/csv-table.ts";
import type { AmountRange } from "@/lib/plan/amounts.ts";
import { keptBooking } from "../../lib/plan/bookings.ts";

const range = (likely: number): AmountRange => ({ low: 0.8 * likely, likely, high: 1.2 * likely });

const paper: BookedPaper = {
  report: {
    assessment: { engineSerial: null, questions: [], cylinders: [] },
    model: { id: "petrol-4-a", cautions: [] },
    next: [],
    finding: "",
    howSure: "",
  } as never,
  booking: keptBooking(),
  cases: [
    {
      scope: "top-end",
      isBooked: true,
      chance: null,
      range: {
        hours: range(14.26),
        labour: range(80_000.4),
        parts: range(90_000.6),
        machining: range(1_234.5),
        total: range(171_235.5),
      },
    } as never,
  ],
};

const cell = ({ head, rows }: CsvTable, name: string) => rows[0]?.[head.indexOf(name)];

describe("amounts of quotes and job cards", () => {
  it.each([
    ["JPY", 80_000, 90_001],
    ["EUR", 800, 900.01],
    ["KWD", 80, 90.001],
  ])("of %s have the digits of its minor unit", (currency, labour, parts) => {
    expect(cell(quotesTable([paper], currency), "labour_likely")).toBe(labour);
    expect(cell(quotesTable([paper], currency), "parts_likely")).toBe(parts);
    expect(cell(jobCardsTable([paper], currency), "parts_likely")).toBe(parts);
  });

  it("stand beside hours in tenths, whatever the currency", () => {
    for (const currency of ["JPY", "EUR"]) {
      expect(cell(quotesTable([paper], currency), "hours_likely")).toBe(14.3);
      expect(cell(jobCardsTable([paper], currency), "hours_likely")).toBe(14.3);
    }
  });
});

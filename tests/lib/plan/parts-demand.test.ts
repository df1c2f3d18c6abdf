import { describe, expect, it } from "vitest";
import { partsDemand } from "@/lib/plan/parts-demand.ts";
import { partsWeeks } from "@/lib/plan/parts-weeks.ts";
import type { KeptBooking } from "@/lib/schema/kept-plan.ts";
import { keptBooking } from "./bookings.ts";
import { bottomEnd, topEnd } from "./problem.ts";

const prices = { priceDate: "2026-08-31", labour: 0, parts: 0 };
const demandOf = (...bookings: readonly KeptBooking[]) => partsDemand(bookings, { asOf: "2026-08-31", prices });
const windowFrom = (p10: string | null): KeptBooking["windows"] => [{ of: "bottomEnd", p10, p50: null, p90: null }];
/** Ten working days of lead. */
const long = (p10: string | null, more: Partial<KeptBooking> = {}) =>
  keptBooking({ scope: "bottom-end", work: bottomEnd, windows: windowFrom(p10), ...more });

describe("the day by which to order", () => {
  it("is so many working days before the week booked", () => {
    // Five and ten working days before Monday 2 November.
    expect(demandOf(keptBooking())[0]).toMatchObject({ orderBy: "2026-10-26", because: "week" });
    expect(demandOf(long("2026-12-01"))[0]).toMatchObject({ orderBy: "2026-10-19", because: "week" });
  });

  it("of long-lead parts lies before the week of the early edge, where that comes before the week booked", () => {
    // The early edge, Thursday 15 October, lies in the week from the 12th on.
    expect(demandOf(long("2026-10-15"))[0]).toMatchObject({
      orderBy: "2026-09-28",
      forWeek: "2026-10-19",
      because: "early-edge",
    });
    const short = keptBooking({ windows: [{ of: "topEnd", p10: "2026-10-15", p50: null, p90: null }] });
    expect(demandOf(short)[0]).toMatchObject({ orderBy: "2026-10-26", because: "week" });
  });

  it("takes the earlier edge of two classes, and none where none is foreseen", () => {
    const windows = [...windowFrom(null), { of: "topEnd", p10: "2026-10-15", p50: null, p90: null } as const];
    expect(demandOf(long(null, { windows }))[0]?.orderBy).toBe("2026-09-28");
    expect(demandOf(long(null))[0]).toMatchObject({ orderBy: "2026-10-19", because: "week" });
  });

  it("is that of the plan where it has gone by", () => {
    expect(demandOf(long("2026-07-01"))[0]).toMatchObject({ orderBy: "2026-08-31", because: "early-edge" });
    expect(demandOf(keptBooking({ start: "2026-08-31", week: 0 }))[0]?.orderBy).toBe("2026-08-31");
  });
});

it("lists the first to be ordered first, each with what its work takes and no machining where none is told", () => {
  const rows = demandOf(keptBooking({ unit: "V-101" }), long("2026-10-15", { unit: "V-102" }));
  expect(rows.map(({ unit }) => unit)).toEqual(["V-102", "V-101"]);
  expect(rows.map(({ groups }) => groups)).toEqual([
    ["gasket-set", "pistons-rings", "machining"],
    ["gasket-set", "valves"],
  ]);
});

it("prices parts and machining as those of labour and parts have grown by the week of need", () => {
  const work = { ...topEnd, parts: 100_000, machining: 100_000 };
  const [row] = partsDemand([keptBooking({ start: "2027-08-31", work })], {
    asOf: "2026-08-31",
    prices: { ...prices, labour: 0.03, parts: 0.05 },
  });
  const years = 365 / 365.2425;
  expect(row).toMatchObject({
    parts: Math.round(100_000 * 1.05 ** years),
    machining: Math.round(100_000 * 1.03 ** years),
  });
});

it("adds up what is needed in each week, by group, with the first day by which to order", () => {
  const demand = demandOf(
    keptBooking({ unit: "V-101" }),
    long("2026-10-15", { unit: "V-102" }),
    keptBooking({ unit: "V-103", start: "2026-11-09" }),
  );
  const [first, second, ...rest] = partsWeeks(demand);
  expect(rest).toEqual([]);
  expect(first).toEqual({
    start: "2026-11-02",
    units: ["V-101", "V-102"],
    groups: [
      { group: "gasket-set", count: 2 },
      { group: "valves", count: 1 },
      { group: "pistons-rings", count: 1 },
      { group: "machining", count: 1 },
    ],
    parts: topEnd.parts + bottomEnd.parts,
    machining: bottomEnd.machining,
    orderBy: "2026-09-28",
  });
  expect(second).toMatchObject({ start: "2026-11-09", units: ["V-103"], orderBy: "2026-11-02" });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type FleetView,
  fleetAddress,
  isFiltered,
  plainFleetView,
  readFleetAddress,
} from "../../../app/_ui/fleet/address.ts";

const readBack = (address: string): FleetView =>
  readFleetAddress(Object.fromEntries(new URL(address, "http://localhost").searchParams));

describe("the Fleet's address", () => {
  test("a plain view has a plain address", () => expect(fleetAddress(plainFleetView, {})).toBe("/"));

  test("whatever is asked for is read back from its address", () => {
    const text = fc
      .string({ unit: "grapheme", minLength: 1, maxLength: 40 })
      .filter((s) => s.trim() === s && s.length <= 100);
    const view = fc.record<FleetView>({
      search: fc.oneof(fc.constant(""), text),
      band: fc.constantFrom(null, "sound", "watch", "plan", "past-limit", "never-tested", "overdue", "question"),
      depot: fc.option(text),
      model: fc.option(text),
      sort: fc.constantFrom("due", "unit", "band", "last-test", "use"),
      descending: fc.boolean(),
      page: fc.integer({ min: 1, max: 4_000 }),
      pageSize: fc.constant(plainFleetView.pageSize),
      years: fc.constantFrom(1, 3, 5),
    });
    fc.assert(
      fc.property(view, (asked) => {
        expect(readBack(fleetAddress(asked, { page: asked.page }))).toEqual(asked);
      }),
    );
  });

  test("a change of filter leads to the first page, and keeps the rest", () => {
    const view: FleetView = { ...plainFleetView, depot: "Highcol", page: 3, years: 5 };
    expect(fleetAddress(view, { band: "plan" })).toBe("/?band=plan&depot=Highcol&years=5");
    expect(fleetAddress(view, { page: 4 })).toBe("/?depot=Highcol&years=5&page=4");
  });

  test("what is not understood counts as not asked for", () =>
    expect(
      readFleetAddress({ band: "red", sort: "luck", years: "2", page: "-1", order: "sideways", depot: "  " }),
    ).toEqual(plainFleetView));

  test("a repeated field counts once, a page must be whole", () => {
    expect(readFleetAddress({ band: ["plan", "watch"] }).band).toBe("plan");
    expect(readFleetAddress({ page: "2.5" }).page).toBe(1);
    expect(readFleetAddress({ page: "1e99" }).page).toBe(1);
  });

  test("sort, span and page leave no row out; search and filters do", () => {
    expect(isFiltered({ ...plainFleetView, sort: "use", years: 1, page: 2 })).toBe(false);
    expect(isFiltered({ ...plainFleetView, search: "valve" })).toBe(true);
    expect(isFiltered({ ...plainFleetView, band: "overdue" })).toBe(true);
  });
});

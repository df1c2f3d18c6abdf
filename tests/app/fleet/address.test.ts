import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type AddressParts,
  type FleetView,
  fleetAddress,
  fleetFileAddress,
  isFiltered,
  plainFleetView,
  readFleetAddress,
  rowChoices,
} from "../../../app/_ui/fleet/address.ts";
import { columnIds, usualColumns } from "../../../app/_ui/fleet/columns.ts";

const read = (parts: AddressParts): FleetView => readFleetAddress(parts, { phone: false });
const readBack = (address: string): FleetView =>
  read(Object.fromEntries(new URL(address, "http://localhost").searchParams));

describe("the Fleet's address", () => {
  test("a plain view has a plain address", () => expect(fleetAddress(plainFleetView, {})).toBe("/"));

  test("whatever is asked for is read back from its address", () => {
    const text = fc
      .string({ unit: "grapheme", minLength: 1, maxLength: 40 })
      .filter((s) => s.trim() === s && s.length <= 100);
    const parts = fc.record({
      search: fc.oneof(fc.constant(""), text),
      band: fc.constantFrom(null, "sound", "watch", "plan", "past-limit", "never-tested", "overdue", "question"),
      depot: fc.option(text),
      model: fc.option(text),
      group: fc.constantFrom(null, "depot", "model", "band"),
      sort: fc.constantFrom("due", "unit", "band", "last-test", "use", "depot", "class", "next-test", "top-chance"),
      descending: fc.boolean(),
      page: fc.integer({ min: 1, max: 4_000 }),
      years: fc.constantFrom(1, 3, 5),
      columns: fc.subarray([...columnIds]),
      rows: fc.constantFrom(null, ...rowChoices),
    } as const);
    const view = parts.map((asked): FleetView => ({ ...asked, pageSize: asked.rows ?? plainFleetView.pageSize }));
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
      read({
        band: "red",
        sort: "luck",
        years: "2",
        page: "-1",
        order: "sideways",
        depot: "  ",
        group: "colour",
        rows: "7",
        columns: "price",
      }),
    ).toEqual(plainFleetView));

  test("a word that every object knows is no band, no group and no column", () =>
    expect(read({ band: "constructor", group: "toString", sort: "valueOf", columns: "constructor" })).toEqual(
      plainFleetView,
    ));

  test("a repeated field counts once, a page must be whole", () => {
    expect(read({ band: ["plan", "watch"] }).band).toBe("plan");
    expect(read({ page: "2.5" }).page).toBe(1);
    expect(read({ page: "1e99" }).page).toBe(1);
  });

  test("sort, span and page leave no row out; search and filters do", () => {
    expect(isFiltered({ ...plainFleetView, sort: "use", years: 1, page: 2 })).toBe(false);
    expect(isFiltered({ ...plainFleetView, search: "valve" })).toBe(true);
    expect(isFiltered({ ...plainFleetView, band: "overdue" })).toBe(true);
  });

  test("columns are told in words or in a field each, and stand in the table's order", () => {
    expect(read({ columns: "use band" }).columns).toEqual(["band", "use"]);
    expect(read({ columns: ["unit", "use", "band"] }).columns).toEqual(["band", "use"]);
    expect(fleetAddress(plainFleetView, { columns: ["band", "use"] })).toBe("/?columns=band+use");
    expect(fleetAddress(plainFleetView, { columns: [...usualColumns] })).toBe("/");
  });

  test("a table of the unit and the axis alone is told from one whose columns nobody chose", () => {
    expect(read({ columns: "unit" }).columns).toEqual([]);
    expect(fleetAddress(plainFleetView, { columns: [] })).toBe("/?columns=unit");
    expect(read({}).columns).toEqual(usualColumns);
  });

  test("a phone's page is shorter, unless the address asks for a length", () => {
    const onPhone = (parts: AddressParts) => readFleetAddress(parts, { phone: true });
    expect(onPhone({}).pageSize).toBe(12);
    expect(read({}).pageSize).toBe(25);
    expect(onPhone({ rows: "50" }).pageSize).toBe(50);
    expect(fleetAddress(onPhone({}), { page: 2 })).toBe("/?page=2");
    expect(fleetAddress(onPhone({ rows: "50" }), {})).toBe("/?rows=50");
  });

  test("the file is of the whole view, whatever page is looked at", () => {
    const view: FleetView = { ...plainFleetView, band: "plan", group: "depot", page: 3, rows: 50, columns: ["use"] };
    expect(fleetFileAddress(view)).toBe("/fleet.csv?band=plan&group=depot&columns=use");
  });
});

import { describe, expect, test } from "vitest";
import { usualColumns } from "../../../app/_ui/fleet/columns.ts";
import { fleetFile } from "../../../app/_ui/fleet/fleet-file.ts";
import { row } from "./made-up-row.ts";

/** The one row of a file by its headings. */
function told(...[rows, columns]: Parameters<typeof fleetFile>) {
  const [head = [], ...lines] = fleetFile(rows, columns);
  expect(new Set(head).size, "no heading twice").toBe(head.length);
  return lines.map((line) => Object.fromEntries(head.map((name, i) => [name, line[i]])));
}

describe("the view as a file", () => {
  const windows = {
    forecast_from: "tests",
    top_end_status: "projected",
    top_end_early_p10: "2026-11-01",
    top_end_likely_p50: "2027-01-05",
    top_end_late_p90: null,
    top_end_sold_before: null,
    bottom_end_status: "not-foreseen",
    bottom_end_early_p10: null,
    bottom_end_likely_p50: null,
    bottom_end_late_p90: null,
    bottom_end_sold_before: null,
  };
  const topEnd = { status: "projected", p10: "2026-11-01", p50: "2027-01-05", p90: null } as const;

  test("always holds the unit and both windows, whatever is chosen", () =>
    expect(told([row("V-1", { topEnd })], [])).toEqual([
      { unit: "V-1", depot: "Highcol", engine_model: "petrol-4-a", ...windows },
    ]));

  test("the usual columns hold what was kept, not what a viewer reads", () =>
    expect(told([row("V-1", { topEnd })], usualColumns)).toEqual([
      {
        unit: "V-1",
        depot: "Highcol",
        engine_model: "petrol-4-a",
        band: "sound",
        cylinder_bands: "sound never-tested",
        weakest_place: "Nothing stands out",
        why: "leakage 6 %, limit 30",
        open_questions: 0,
        last_test_date: "2026-03-01",
        test_overdue: "no",
        use_per_day: 87.333,
        meter_unit: "km",
        ...windows,
      },
    ]));

  test("a window from the model alone is told apart, and nothing foreseen comes from nothing", () => {
    const fromModel = { status: "too-few-tests", p10: "2030-08-07", p50: null, p90: null } as const;
    const rows = [row("H-306", { topEnd: fromModel, bottomEnd: fromModel }), row("V-1")];
    expect(told(rows, []).map(({ forecast_from }) => forecast_from)).toEqual(["model", null]);
  });

  test("a disposal planned before a window's likely date stands beside that window", () =>
    expect(told([row("V-1", { topEnd: { ...topEnd, soldOn: "2026-12-31" } })], [])[0]).toMatchObject({
      top_end_sold_before: "2026-12-31",
      bottom_end_sold_before: null,
    }));

  test("the meter's unit is told once for reading and use", () =>
    expect(told([row("V-1")], ["meter", "use"])[0]).toMatchObject({
      meter: 148_600,
      use_per_day: 87.333,
      meter_unit: "km",
    }));

  test("chances are shares of one, and blank where none is told", () =>
    expect(told([row("V-1")], ["top-chance", "bottom-chance"])[0]).toMatchObject({
      top_end_probability_within_year: 0.123,
      bottom_end_probability_within_year: null,
    }));
});

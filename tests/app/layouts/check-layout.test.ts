import { describe, expect, it } from "vitest";
import { checkLayout } from "@/app/_ui/layouts/check-layout.ts";

const truck = { header: "Truck", is: "field", field: "unit" };
const tested = { header: "Tested", is: "field", field: "test_date" };
const meter = { header: "Km", is: "field", field: "meter" };
const leak = (cylinder: number) => ({
  header: `Leak ${cylinder}`,
  is: "reading",
  measure: "leak-down",
  cylinder,
  unit: "%",
});
const layout = (columns: readonly object[], more: object = {}) => ({
  layoutVersion: 1,
  headerRows: 1,
  columns,
  constants: { meter_unit: "km" },
  ...more,
});
const whole = [truck, tested, meter, leak(1), leak(2)];

describe("a layout that is to be kept", () => {
  it("is taken where it tells all that rows need", () => {
    expect(checkLayout(layout(whole))).toMatchObject({ ok: true, layout: { columns: { length: 5 } } });
  });

  it("names the columns that tell the same twice", () => {
    expect(checkLayout(layout([...whole, leak(2)]))).toEqual({
      ok: false,
      problems: { "columns.5": 'It tells the same as column 5, "Leak 2".' },
      gaps: [],
    });
  });

  it("says what nothing tells, and what to do", () => {
    const { gaps } = checkLayout(layout([tested, meter, leak(1)])) as { readonly gaps: readonly string[] };
    expect(gaps).toEqual(["Nothing tells the unit. Choose its column, or give its number for the whole file."]);
  });

  it("refuses values for the whole file with which every row would be refused", () => {
    const columns = [truck, meter, leak(1)];
    const wrong = { meter_unit: "furlong", test_date: "24.03.2026" };
    expect(checkLayout(layout(columns, { constants: wrong }))).toEqual({
      ok: false,
      problems: {
        "constants.meter_unit": expect.stringContaining("must be h, km or mi"),
        "constants.test_date": '"24.03.2026" is not a date; write it as YYYY-MM-DD, such as 2026-06-30.',
      },
      gaps: [],
    });
  });

  it("tells in words what JSON of another kind lacks", () => {
    expect(checkLayout({ layoutVersion: 2 })).toMatchObject({
      problems: { layoutVersion: "It must be 1.", columns: "It is missing." },
    });
    expect(checkLayout(layout([{ header: "Truck", is: "wheel" }]))).toMatchObject({
      problems: { "columns.0": "It must be ignored or reading or field." },
    });
  });
});

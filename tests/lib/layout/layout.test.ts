import { describe, expect, it } from "vitest";
import { headerKey, joinHeaderRows } from "@/lib/layout/header-key.ts";
import { gapsOf, layoutSchema } from "@/lib/layout/layout.ts";
import { layoutOf } from "./made-up.ts";

const field = (name: string, more: object = {}) => ({ header: name, is: "field", field: name, ...more });
const reading = (header: string, more: object = {}) => ({ header, is: "reading", ...more });
const problems = (columns: unknown, more: object = {}) =>
  layoutSchema
    .safeParse({ layoutVersion: 1, headerRows: 1, columns, ...more })
    .error?.issues.map(({ path, message }) => `${path.join(".")} ${message}`);

describe("a layout", () => {
  it("survives being written as JSON", () => {
    const layout = layoutOf([field("unit"), reading("C1", { cylinder: 1, unit: "psi" })], {
      constants: { meter_unit: "h" },
    });
    expect(layoutSchema.parse(JSON.parse(JSON.stringify(layout)))).toEqual(layout);
  });

  it("tells nothing twice", () => {
    expect(problems([field("unit"), { ...field("unit"), header: "Van" }])).toEqual([
      'columns.1 tells the same as column 1, "unit"',
    ]);
    expect(problems([reading("a", { cylinder: 1 }), reading("b", { cylinder: 1 })])).toEqual([
      'columns.1 tells the same as column 1, "a"',
    ]);
    expect(problems([field("unit")], { constants: { unit: "V-1" } })).toEqual([
      "constants.unit is told by another part of the layout",
    ]);
    expect(problems([field("unit")], { title: [{ label: "Van", field: "unit" }] })).toEqual([
      "title.0 tells unit, which another part of the layout tells",
    ]);
    expect(
      problems([
        reading("a", { cylinder: 1 }),
        reading("b", { cylinder: 2 }),
        field("heard_at"),
        { ...field("heard_at", { cylinder: 2 }), header: "h2" },
      ]),
    ).toBeUndefined();
  });

  it.each([
    ["another version", { layoutVersion: 2 }],
    ["a stray key", { colour: "red" }],
    ["three header rows", { headerRows: 3 }],
    ["a constant cylinder", { constants: { cylinder: "1" } }],
    ["a constant of no name", { constants: { ["__proto__x"]: "1" } }],
  ])("of %s is refused", (_, more) => {
    expect(problems([field("unit")], more)).toBeDefined();
  });

  it("knows what it still lacks", () => {
    expect(gapsOf(layoutOf([field("unit")]))).toEqual(["readings"]);
    const bare = [reading("value")];
    expect(gapsOf(layoutOf(bare))).toEqual([
      "unit",
      "test_date",
      "meter",
      "meter_unit",
      "test",
      "cylinder",
      "value_unit",
    ]);
    const held = [
      field("unit"),
      field("test_date"),
      field("meter"),
      reading("L1", { measure: "leak-down", cylinder: 1, unit: "psi" }),
    ];
    expect(gapsOf(layoutOf(held, { constants: { meter_unit: "h" } }))).toEqual(["supply"]);
    expect(gapsOf(layoutOf(held, { constants: { meter_unit: "h", supply: "80" } }))).toEqual([]);
  });
});

describe("a header", () => {
  it("is recognised whatever its case, blanks and signs, and not by other words or another order", () => {
    const key = headerKey(["Van no.", "Cyl 1 (psi)", ""]);
    expect(headerKey(["  VAN  NO", "cyl_1 [PSI]"])).toBe(key);
    expect(headerKey(["Van no", "Cyl 1 (bar)"])).not.toBe(key);
    expect(headerKey(["Cyl 1 (psi)", "Van no"])).not.toBe(key);
    expect(headerKey(["", "Van no", "Cyl 1 (psi)"])).not.toBe(key);
  });

  it("of a thousand columns has a key of its own that fits an index", () => {
    const many = Array.from({ length: 1_000 }, (_, i) => `Column ${i}`);
    const key = headerKey(many);
    expect(key.length).toBeLessThan(600);
    expect(headerKey([...many.slice(0, -1), "Other"])).not.toBe(key);
  });

  it("of two rows gives merged cells to those under them, and leaves what stands alone", () => {
    expect(joinHeaderRows(["Van", "Dry", "", "Leak %", ""], ["", "1", "2", "1", "2"])).toEqual([
      "Van",
      "Dry 1",
      "Dry 2",
      "Leak % 1",
      "Leak % 2",
    ]);
    expect(joinHeaderRows(["", "", "Dry"], ["Van", "Date", "1", "2"])).toEqual(["Van", "Date", "Dry 1", "Dry 2"]);
  });
});

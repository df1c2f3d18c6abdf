import { describe, expect, it } from "vitest";
import { layoutVersionsTable } from "@/app/_ui/history-files.ts";
import { layoutsFinding, usesWords } from "@/app/_ui/layouts/kept-words.ts";
import { layoutVersionsOf } from "@/app/_ui/layouts/layout-versions.ts";
import { readsWords, recognisedWords, wholeFileFacts } from "@/app/_ui/layouts/layout-words.ts";
import type { LayoutRow } from "@/db/layouts.ts";
import { layoutOf } from "../../lib/layout/made-up.ts";

const truck = { header: "Truck", is: "field", field: "unit" };
const leak = (cylinder: number) => ({
  header: `Leak ${cylinder}`,
  is: "reading",
  measure: "leak-down",
  cylinder,
  unit: "%",
});
const ignored = (header: string) => ({ header, is: "ignored" });
const first = layoutOf([truck, ignored("Leak 1"), leak(2)]);
const second = layoutOf([truck, leak(1), leak(2)], { constants: { test_date: "2026-03-24" }, dateOrder: "day-first" });
const row = (id: number, layout: unknown, more: Partial<LayoutRow> = {}): LayoutRow => ({
  id,
  name: "Yard",
  header: "",
  layout,
  by: `Person ${id}`,
  at: `2026-06-0${id}T08:00:00.000Z`,
  renamedFrom: null,
  withdrawn: false,
  withdrawnAt: null,
  withdrawnBy: null,
  ...more,
});

describe("the versions of a layout", () => {
  const withdrawn = { withdrawn: true, withdrawnAt: "2026-06-05T08:00:00.000Z", withdrawnBy: "B. Clerk" };
  const versions = layoutVersionsOf([
    row(4, second),
    row(3, { layoutVersion: 9 }, withdrawn),
    row(2, second, { ...withdrawn, renamedFrom: "Shed" }),
    row(1, first, withdrawn),
  ]);

  it("tell what each changed, column by column and value by value", () => {
    expect(versions.map(({ no, isInForce, renamed }) => [no, isInForce, renamed])).toEqual([
      [4, true, null],
      [3, false, null],
      [2, false, { from: "Shed", to: "Yard" }],
      [1, false, null],
    ]);
    expect(versions[2]?.changes).toEqual([
      { column: "Leak 1", before: "left out", after: "leak-down, cylinder 1, in %" },
      { column: "Dates", before: "order not known: such dates are refused", after: "day first, 31.12.2026" },
      { column: "Date of the test", before: "not told", after: "2026-03-24" },
    ]);
    expect(versions[3]?.changes).toEqual([]);
  });

  it("tell a withdrawal once, at the version that stood then, and one that cannot be read as none", () => {
    expect(versions.map((version) => version.withdrawn?.by ?? null)).toEqual([null, "B. Clerk", null, null]);
    expect(versions.map(({ layout }) => layout === null)).toEqual([false, true, false, false]);
  });

  it("are a table with a line for each change", () => {
    const table = layoutVersionsTable(versions);
    expect(table.head.slice(0, 6)).toEqual(["at", "by", "version", "what", "was", "became"]);
    expect(table.rows.map((line) => line.slice(2, 4))).toEqual([
      [4, null],
      [3, null],
      [2, "Leak 1"],
      [2, "Dates"],
      [2, "Date of the test"],
      [1, null],
    ]);
  });
});

describe("the words of a layout", () => {
  it("say what it reads and is recognised by", () => {
    expect(readsWords(second)).toBe("Leak-down of 2 cylinders");
    expect(readsWords(layoutOf([truck, ignored("x")]))).toBe("No readings");
    const long = { header: "kPa", is: "reading", measure: null, cylinder: null, unit: "kPa" };
    expect(readsWords(layoutOf([long], { constants: { test: "compression-dry" } }))).toBe(
      "Compression, a row for each cylinder",
    );
    expect(recognisedWords(first)).toBe("Truck · Leak 1 · Leak 2");
    const many = layoutOf(Array.from({ length: 20 }, (_, i) => ignored(`H${i}`)));
    expect(recognisedWords(many)).toMatch(/H11 and 8 more$/);
  });

  it("say what holds for the whole file, and what the title block tells", () => {
    const titled = layoutOf([leak(1)], { title: [{ label: "Unit no", field: "unit" }], headerRows: 2 });
    expect(wholeFileFacts(titled)).toEqual([
      ["Unit", "what stands after “Unit no” above the table"],
      ["Dates", "order not known: such dates are refused"],
      ["Decimal sign", "not known: such numbers are refused"],
      ["Headings", "in two rows"],
    ]);
  });

  it("count layouts and uses", () => {
    expect(layoutsFinding(2, 1)).toBe(
      "Two layouts in use, one withdrawn: files with their headings are read without a question.",
    );
    expect(layoutsFinding(0, 1)).toBe("No layout is in use, one withdrawn.");
    const day = (at: string) => at.slice(0, 10);
    expect(usesWords([], day)).toBe("Used by no import yet.");
    const use = { importId: "a", at: "2026-06-01T08:00:00.000Z", by: "R. Ames" };
    expect(usesWords([use, use], day)).toBe("Used by two imports, last on 2026-06-01.");
  });
});

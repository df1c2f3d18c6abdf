import { describe, expect, it } from "vitest";
import { findHeader, headerAt } from "@/lib/layout/find-header.ts";
import { letteredColumns } from "@/lib/layout/lettered-columns.ts";
import { readHeading } from "@/lib/layout/read-heading.ts";
import type { Meaning } from "@/lib/layout/synonyms.ts";

/** Headings as workshops write them, and what each may stand for. */
const headings: Partial<Record<Meaning, readonly string[]>> = {
  unit: ["Truck #", "Asset tag", "Vehicle Regn No", "Regn. No.", "VRN", "Number plate", "Call sign", "Veh. Ref", "Rig"],
  test_date: ["Inspection date", "Date inspected", "Dt.", "Dt. of checking", "Svc date", "Done on", "Prüfdatum"],
  meter: ["Hr meter", "HMR", "SMU", "Kms covered", "Speedo reading", "Odometer in", "KM-Stand", "Machine hours"],
  cylinder: ["Cyl #", "Cyl. No.", "Pot no", "Zyl.", "Cylinder position"],
  value: ["Held (76/80)", "Held / supply", "Dry bar 1", "psi dry 2", "Gauge rdg", "Druckverlust", "Percent leakage"],
  tested_by: ["Tech initials", "Inspected by", "Mech. name", "Name of mechanic", "Attended by", "Prüfer", "Inits"],
  instrument: ["Gauge S/N", "Tester ref", "Test kit no", "Instrument used", "Messgerät"],
  remarks: ["Remarks (if any)", "Notes / comments", "Mechanic's notes", "Action taken", "Bemerkungen"],
  heard_at: ["Air escaping at", "Leak source", "Hissing from", "Where is air heard", "Leakage from"],
  supply: ["Reg pressure (psi)", "Supply press", "Line pressure", "Set at"],
  depot: ["Home depot", "Workshop location", "Standort"],
  ignored: ["Sr. No.", "RO #", "Oil temp", "Invoice no", "Nominal"],
};

describe("a heading", () => {
  it.each(Object.entries(headings).flatMap(([meaning, of]) => of.map((heading) => [heading, meaning] as const)))(
    "%s may be of %s",
    (heading, meaning) => {
      expect(readHeading(heading).meanings).toContain(meaning);
    },
  );

  it("with its unit amidst tells measure, cylinder and unit", () => {
    expect(readHeading("Dry bar 3")).toMatchObject({ measure: "compression-dry", cylinder: 3, valueUnit: "bar" });
    expect(readHeading("Comp psi cyl 2")).toMatchObject({ measure: "compression-dry", cylinder: 2, valueUnit: "psi" });
  });

  it("is not taken for a machine because of its first word", () => {
    expect(readHeading("Machine hours").meanings).toEqual(["meter"]);
    expect(readHeading("Druck").meanings).toEqual(["value"]);
  });
});

describe("letters side by side", () => {
  it("are cylinders in their order, from A and without a gap", () => {
    expect(letteredColumns(["Asset", "A", "b", "C"])).toEqual([null, 1, 2, 3]);
    expect(letteredColumns(["A", "B", "Date"])).toEqual([null, null, null]);
    expect(letteredColumns(["B", "C", "D", "A"])).toEqual([null, null, null, null]);
  });
});

describe("a row of headings", () => {
  it("is found without a heading of readings where no row has one", () => {
    const rows = [
      ["Unit", "Date", "Hours", "Bench figure"],
      ["V-1", "2026-03-02", "4180", "175"],
    ];
    expect(findHeader(rows)).toMatchObject({ below: 1, headerRows: 1 });
    expect(
      findHeader([
        ["Unit", "Date", "Hours"],
        ["Cyl", "Dry", "Wet"],
      ]),
    ).toMatchObject({ below: 2 });
  });

  it("may be chosen, of one row or of two", () => {
    const rows = [
      ["", "Bench", ""],
      ["what", "first", "second"],
      ["V-1", "170", "171"],
    ];
    expect(headerAt(rows, { row: 2, rows: 1 })).toMatchObject({ below: 2, headings: ["what", "first", "second"] });
    expect(headerAt(rows, { row: 2, rows: 2 })).toMatchObject({
      below: 2,
      headings: ["what", "Bench first", "Bench second"],
      title: [],
    });
    expect(headerAt(rows, { row: 1, rows: 2 })).toBeNull();
    expect(headerAt(rows, { row: 9, rows: 1 })).toBeNull();
  });
});

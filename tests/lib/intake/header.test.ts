import { describe, expect, it } from "vitest";
import { columnGuide, readHeader } from "@/lib/intake/header.ts";
import { type CsvKind, columnsOf } from "@/lib/schema/rows.ts";

const read = (header: string, kind: CsvKind | null = null) =>
  readHeader(header.split(","), { file: "a.csv", line: 1, kind });
const wordsOf = (header: string, kind: CsvKind | null = null) => {
  const result = read(header, kind);
  return (result.ok ? result.value.mentions : result.error).map((issue) => issue.words);
};
const kindOf = (header: string) => {
  const result = read(header);
  return result.ok ? result.value.header.kind : null;
};
const long = "unit,test_date,meter,meter_unit,test,cylinder,value,value_unit";

describe("the header row", () => {
  it.each<[string, CsvKind]>([
    [long, "tests-long"],
    ["unit,test_date,meter,meter_unit,test,value_unit,cyl_1,cyl_2", "tests-wide"],
    ["unit,test_date,meter,meter_unit,test,value_unit,1,2", "tests-wide"],
    [
      "unit,engine_model,meter_unit,depot,class,in_service_date,in_service_meter,engine_serial,disposal_date,status",
      "units",
    ],
    ["unit,engine_model,meter_unit", "units"],
    ["depot,altitude_m", "depots"],
    ["depot", "depots"],
    ["unit,repair_date,meter,scope", "repairs"],
    ["unit,reading_date,meter,meter_reset", "meters"],
    ["unit,reading_date,meter", "meters"],
    ["unit,check_date,meter,cylinder,check,result,value,value_unit,remarks", "checks"],
  ])("%s is a file of %s", (header, kind) => {
    expect(kindOf(header)).toBe(kind);
    expect(kindOf(header.split(",").reverse().join(","))).toBe(kind);
  });

  it("recognises every kind by the columns of its own guide", () => {
    for (const kind of Object.keys(columnsOf) as CsvKind[]) {
      const names = columnGuide(kind).map((column) => column.name.replace(/ … .*/, ""));
      expect(kindOf(names.join(","))).toBe(kind);
    }
  });

  it("forgives case, blanks, hyphens and underscores in names", () => {
    expect(wordsOf(" UNIT ,Test-Date,Meter,meter unit,TEST,Cylinder,val_ue,ValueUnit")).toEqual([]);
  });

  it("names all needed columns that are missing", () => {
    expect(wordsOf("unit,meter,meter_unit,test,cylinder,value")).toEqual([
      "the file looks like test results, one row for each cylinder, but the columns test_date and value_unit are missing",
    ]);
    expect(wordsOf("unit,meter", "meters")).toEqual([
      "the file looks like meter readings, but the column reading_date is missing",
    ]);
  });

  it("mentions unknown columns once, all together", () => {
    expect(wordsOf(`${long},colour,mood`)).toEqual(['the columns "colour" and "mood" are not known and were ignored']);
  });

  it("refuses the same column twice, however spelled", () => {
    expect(wordsOf(`${long},Test Date`)).toEqual([
      'the columns "test_date" and "Test Date" are the same column; keep one',
    ]);
    expect(wordsOf("unit,test_date,meter,meter_unit,test,value_unit,cyl_1,c1")).toEqual([
      'the columns "cyl_1" and "c1" are the same column; keep one',
    ]);
  });

  it("does not take a foreign file for a list of units because one column is called unit", () => {
    expect(wordsOf("unit,date,hours,reading")[0]).toMatch(/^what the file holds cannot be told/);
    expect(wordsOf("a,b")[0]).toMatch(/^what the file holds cannot be told/);
  });

  it("reads cylinders 1 to 16 and no others", () => {
    const result = read("unit,test_date,meter,meter_unit,test,value_unit,c16,heard_2,c17");
    if (!result.ok) throw new Error("refused");
    expect(result.value.header.cylinders.map((c) => c.cylinder)).toEqual([2, 16]);
    expect(result.value.mentions.map((m) => m.words)).toEqual(['the column "c17" is not known and was ignored']);
  });
});

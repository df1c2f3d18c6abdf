import { describe, expect, it } from "vitest";
import { sampleFile } from "@/lib/intake/sample-file.ts";
import { answered } from "@/lib/layout/answer.ts";
import { columnWords } from "@/lib/layout/column-words.ts";
import { suggestLayout } from "@/lib/layout/suggest.ts";
import type { SuggestContext } from "@/lib/layout/suggestion.ts";

const nobody: SuggestContext = { today: null, models: new Set(), units: new Map() };
const rows = (text: string) => text.split("\n").map((line) => line.split(","));
const suggest = (text: string, known: Partial<SuggestContext> = {}) =>
  suggestLayout({ records: rows(text), columns: [] }, { ...nobody, ...known });
const codes = (text: string, known: Partial<SuggestContext> = {}) =>
  suggest(text, known).questions.map(({ code }) => code);

const head = "Unit,Date,Hours";
const at = "V-1,2026-03-02,100";

describe("a suggestion", () => {
  it("is not made for a file that has the contract's columns", () => {
    for (const header of [
      "unit,test_date,meter,meter_unit,test,cylinder,value,value_unit",
      "Unit,Test Date,Meter,Meter Unit,Test,Value Unit,Cyl 1,Cyl 2",
      "unit,reading_date,meter",
      "depot,altitude_m",
    ]) {
      expect(suggest(`${header}\na,b,c`)).toEqual({ isContract: true, layout: null, columns: [], questions: [] });
    }
    expect(suggest("unit,pressure,date\nV-1,1200,x").isContract).toBe(false);
  });

  it("asks for the header where no row looks like one", () => {
    for (const text of ["", "a,b,c\n1,2,3", "1,2,3,4\n5,6,7,8", "The workshop closes at noon"]) {
      expect(suggest(text)).toMatchObject({ layout: null, questions: [{ code: "no-header", needed: true }] });
    }
  });

  it.each([
    ["Cyl 3 (psi)", "reading, cylinder 3, in psi"],
    ["CYL3 [bar]", "reading, cylinder 3, in bar"],
    ["#3 dry - kPa", "compression, cylinder 3, in kPa"],
    ["Third", "left out"],
    ["Comp. cyl three (kg/cm²)", "compression, cylinder 3, in kgf/cm2"],
    ["3rd cyl wet psi", "wet compression, cylinder 3, in psi"],
    ["LD3", "leak-down, cylinder 3"],
    ["Leak-down No. 3 %", "leak-down, cylinder 3, in %"],
    ["Lekdown 3 %", "leak-down, cylinder 3, in %"],
    ["Heard at 3", "where air was heard, cylinder 3"],
    ["1st stroke 3 (bar)", "gauge after the first stroke, cylinder 3, in bar"],
    ["Cyl 17 psi", "left out"],
    ["Cyl 3 (MPa)", "left out"],
    ["Cyl 1-3 psi", "left out"],
    ["Oil pressure", "left out"],
  ])("takes the heading %s for %s", (heading, words) => {
    const { columns } = suggest(
      `${head},1 dry kPa,2 dry kPa,${heading}\n${at},1200,1210,${/heard/i.test(heading) ? "exhaust" : "12"}`,
    );
    expect(columnWords(columns.at(-1)?.is ?? { header: "", is: "ignored" })).toBe(words);
  });

  it("knows a heading by what stands below where its words may mean several things", () => {
    const kinds = (text: string) => suggest(text).columns.map(({ is }) => columnWords(is));
    expect(kinds("Fleet no,Tested,Hours,Dry 1 kPa\nV-1,2026-03-02,1,1200")[1]).toBe("date of the test");
    expect(kinds("Fleet no,Tested,Hours,Dry 1 kPa\nV-1,A. Fitter,1,1200")[1]).toBe("who tested");
    expect(kinds(`${head},Cyl,Units,Result\n${at},1,psi,170`)[4]).toBe("unit of the readings");
    expect(kinds(`No,${head},Dry 1 kPa\n1,${at},1200\n2,${at},1190`)[0]).toBe("left out");
    expect(kinds(`${head},No,Dry kPa\n${at},1,1200\n${at},2,1190\n${at},1,1190`)[3]).toBe("cylinder");
  });

  it("says how sure it is, and by what", () => {
    const { columns } = suggest(`${head},Drry 1 kPa,Colour,\n${at},1200,red,psi`);
    expect(columns.map(({ sureness }) => sureness)).toEqual(["sure", "sure", "sure", "likely", "sure", "likely"]);
    expect(columns[5]).toMatchObject({ why: "By what stands in the column.", examples: ["psi"] });
    const misspelt = suggest(`Vehcle no,Date,Hours,Dry 1 kPa\n${at},1200`).columns[0];
    expect(misspelt).toMatchObject({ sureness: "likely", why: 'By its heading, read as "vehicle no".' });
  });

  it("asks where a heading counts cylinders from 0, or names another unit than the title", () => {
    expect(suggest(`${head},Cyl 0 dry psi,Cyl 1 dry psi\n${at},170,168`).questions).toMatchObject([
      { code: "cylinder", needed: true },
      { code: "column", needed: false },
    ]);
    expect(suggest(`All pressures in kPa\n${head},Dry 1 psi,Leak 1 %\n${at},170,12`).questions).toMatchObject([
      { code: "value-unit", needed: true, columns: [3] },
    ]);
    expect(codes(`All pressures in psi\n${head},Dry 1 psi,Leak 1 %\n${at},170,12`)).toEqual([]);
  });

  it("takes engine models only where all of them are known", () => {
    const text = `${head},Engine type,Dry 1 kPa\n${at},four,1200`;
    expect(codes(text)).toEqual(["engine-model"]);
    expect(codes(text, { models: new Set(["four"]) })).toEqual([]);
  });

  it("knows the meter's unit of units that are known, where all have the same", () => {
    const text = `Unit,Date,Odometer,Dry 1 kPa\nV-1,2026-03-02,100,1200\nV-2,2026-03-02,200,1190`;
    expect(codes(text)).toEqual(["meter-unit"]);
    const units = new Map([["V-1", "km"] as const, ["V-2", "km"] as const]);
    expect(suggest(text, { units }).layout?.constants).toEqual({ meter_unit: "km" });
    expect(codes(text, { units: new Map([["V-1", "km"] as const, ["V-2", "mi"] as const]) })).toEqual(["meter-unit"]);
    expect(codes(text, { units: new Map([["V-1", "km"] as const]) })).toEqual(["meter-unit"]);
  });

  it.each([
    ["Limit 30 %\nSupply: 80 psi\nCompression gauge: G-7", ["test", "value-unit"]],
    ["Dry compression\nLeak-down limits", ["test", "value-unit"].slice(1)],
    ["Dry and wet compression", ["test", "value-unit"]],
    ["Compression test\nReadings in bar", []],
    ["Compression test\nReadings in bar or psi", ["value-unit"]],
  ])("reads the title %j for what it says of the readings, and not for more", (title, open) => {
    expect(codes(`${title}\n${head},1,2\n${at},12,13`).sort()).toEqual(open);
  });

  it.each([
    ["Leak 1 %,Leak 2 %", "92,95", ["leak-sense"]],
    ["Leak 1 %,Leak 2 %", "12,95", []],
    ["Leak 1 psi,Leak 2 psi", "4,6", ["leak-sense", "supply"].slice(0, 1)],
    ["Loss 1 psi,Loss 2 psi", "4,6", ["leak-sense"]],
    ["Held 1 psi,Held 2 psi", "74,76", ["supply"]],
    ["Held 1 %,Held 2 %", "12,10", ["leak-sense"]],
    ["Leak 1,Leak 2", "12,10", ["value-unit"]],
    ["Leak 1,Leak 2", "4 psi,6 psi", ["leak-sense"]],
    ["Leak 1,Leak 2", "76/80,74/80", ["value-unit"]],
    ["Leak 1 %,Leak 2 %", "76/80,74/80", ["value-unit"]],
    ["Leak 1 psi,Leak 2 psi", "76/80,74/80", []],
    ["Leak 1 psi,Leak 2 psi", "4/80,6/80", ["leak-sense"]],
    ["Loss 1 psi,Loss 2 psi", "76/80,74/80", ["leak-sense"]],
    ["Leak 1 %,Leak 2 %", "0.12,0.5\nV-2,2026-03-02,100,0.1,1", ["share"]],
    ["Leak 1 %,Leak 2 %", "0,1\nV-2,2026-03-02,100,1,0", []],
    ["Leak 1 %,Leak 2 %", "0.5 %,0.2 %\nV-2,2026-03-02,100,0.1 %,1 %", []],
  ])("of %s with %s asks %j", (headings, cells, open) => {
    expect(codes(`${head},${headings}\n${at},${cells}`)).toEqual(open);
  });

  const percentTitle = "Leak-down test\nAll readings in %";
  it.each([
    ["the title", `${percentTitle}\n${head},Cyl 1,Cyl 2`, [`${at},92,48`], ["leak-sense"]],
    ["the title", `${percentTitle}\n${head},Cyl 1,Cyl 2`, [`${at},12,48`], []],
    ["the title", `${percentTitle}\n${head},Cyl 1,Cyl 2`, [`${at},0.12,0.08`, `${at},0.1,0.3`], ["share"]],
    ["the cells", `${head},Cyl 1 held,Cyl 2 held`, [`${at},12 %,10 %`], ["leak-sense"]],
    ["the cells", `${head},Leak 1,Leak 2`, [`${at},92 %,90 %`], ["leak-sense"]],
    ["the cells", `${head},Leak 1,Leak 2`, [`${at},12 %,10 %`], []],
    ["a column", `${head},Test,Cyl,Held,Unit of value`, [`${at},Leak-down,1,12,%`], ["leak-sense"]],
    ["a column", `${head},Test,Cyl,Result,Units`, [`${at},Dry,1,1200,kPa`, `${at},Leak-down,1,92,%`], ["leak-sense"]],
    ["a column", `${head},Test,Cyl,Result,Units`, [`${at},Dry,1,95,psi`, `${at},Leak-down,1,12,%`], []],
    ["the test", `${head},Test,Cyl,Result`, [`${at},Dry psi,1,170`, `${at},Leak %,1,92`], ["leak-sense"]],
    ["a column", `${head},Test,Cyl,Loss,Units,Supply psi`, [`${at},Leak-down,1,4,psi,80`], ["leak-sense"]],
    ["a column", `${head},Test,Cyl,Held,Units,Supply psi`, [`${at},Leak-down,1,76,psi,80`], []],
  ])("where %s tells the unit, of %s with %j asks %j", (_by, headings, cells, open) => {
    expect(codes([headings, ...cells].join("\n"))).toEqual(open);
  });

  it.each(["In service", "Built", "Next test due", "Calibration expires", "Report printed", "Purchased"])(
    "takes no dates below %s for those of the tests",
    (heading) => {
      const { columns, questions } = suggest(`Unit,${heading},Hours,Dry 1 kPa\n${at},1200`);
      expect(columns[1]?.is.is).toBe("ignored");
      expect(questions.filter(({ needed }) => needed)).toMatchObject([{ code: "test-date", columns: [] }]);
    },
  );

  it.each(["", "Seen", "Last test"])("asks whether dates below %j are those of the tests", (heading) => {
    const { layout, questions } = suggest(`Unit,${heading},Hours,Dry 1 kPa\nV-1,25/03/2026,100,1200`);
    expect(questions).toMatchObject([{ code: "test-date", needed: true, columns: [1], likely: "1" }]);
    const [question] = questions;
    if (layout === null || question === undefined) throw new Error("a question was expected");
    expect(answered(layout, question, "1")).toMatchObject({
      dateOrder: "day-first",
      columns: [{}, { is: "field", field: "test_date", measure: null }, {}, {}],
    });
  });

  it("takes the date that the title tells before a column whose heading says nothing of its dates", () => {
    const { layout, questions } = suggest(`Date of test: 2026-05-01\nUnit,Seen,Hours,Dry 1 kPa\n${at},1200`);
    expect(layout).toMatchObject({ title: [{ field: "test_date" }], columns: [{}, { is: "ignored" }, {}, {}] });
    expect(questions.some(({ needed }) => needed)).toBe(false);
    expect(codes(`Seen,${head},Dry 1 kPa\n2026-03-09,${at},1200`)).toEqual(["same-meaning"]);
  });

  it("does not take hours that were worked for a reading of the meter", () => {
    expect(codes(`Unit,Date,Hours worked,Dry 1 kPa\n${at},1200`)).toContain("meter");
  });

  it("leaves out what it asks for, and takes it once it is answered", () => {
    const { layout, questions } = suggest(`${head},Loss 1 psi\n${at},4`);
    const [question] = questions;
    if (layout === null || question === undefined) throw new Error("a question was expected");
    expect(layout.columns.some(({ is }) => is === "reading")).toBe(false);
    expect(answered(layout, question, "held")?.columns.at(-1)).toMatchObject({ is: "reading", measure: "leak-down" });
    expect(answered(layout, question, "lost")).toBeNull();
    expect(answered(layout, { ...question, code: "cylinder", choices: [] }, "1")).toBeNull();
  });

  it("takes no answer that the layout cannot hold", () => {
    const { layout, questions } = suggest("Date,Hours,Dry 1 kPa\n2026-03-02,100,1200");
    const [question] = questions;
    if (layout === null || question === undefined) throw new Error("a question was expected");
    expect(question.code).toBe("unit");
    expect(answered(layout, question, "V-9")?.constants).toMatchObject({ unit: "V-9" });
    expect(answered(layout, question, " ")).toBeNull();
    expect(answered(layout, question, "x".repeat(400))).toBeNull();
  });
});

describe("a sample", () => {
  const nothing = { records: [], columns: [] };
  async function* file(lines: number, last: string) {
    yield `${head},Dry 1 psi\n`;
    for (let i = 0; i < lines; i++) yield `V-${i},0${(i % 9) + 1}/0${(i % 8) + 1}/2025,100,170\n`;
    yield last;
  }
  const of = async (lines: number, last = "") => (await sampleFile({ source: file(lines, last) })) ?? nothing;

  it("holds what any row of a long file shows, and few of its rows", async () => {
    const late = Array.from({ length: 14 }, (_, i) => `V-x,${13 + i}/04/2025,100,170\n`).join("");
    const sample = await of(50_000, late);
    expect(sample.records.length).toBeLessThan(400);
    expect(suggestLayout(sample, nobody).layout?.dateOrder).toBe("day-first");
    expect(suggestLayout(await of(50_000), nobody).questions.map(({ code }) => code)).toEqual(["date-order"]);
    const [question] = suggestLayout(await of(50_000, "V-x,13/04/2025,100,170\n"), nobody).questions;
    expect(question).toMatchObject({ code: "date-order", likely: "day-first" });
  });

  it("holds what the last row of a long file shows, however much those before it showed", async () => {
    async function* file(last: string) {
      yield `${head},Dry 1 psi,Notes,More\n`;
      const units = ["psi", "bar", "kPa", "km", "mi", "h", "rpm", "mm", "mbar", "cc"];
      for (let i = 0; i < 3_000; i++)
        yield `V-${i},02/0${(i % 9) + 1}/2025,100,170,${i % 7}.${i % 3} ${units[i % 10]},${i}\n`;
      yield last;
    }
    const of = async (last: string) => {
      const sample = await sampleFile({ source: file(last) });
      return suggestLayout(sample ?? nothing, nobody);
    };
    expect((await of("V-x,02/04/2025,100,170,,\n")).questions.map(({ code }) => code)).toContain("date-order");
    const contradictory = await of("V-x,13/04/2025,100,170,,\nV-x,04/13/2025,100,170,,\n");
    expect(contradictory.questions.map(({ code }) => code)).toContain("dates-contradict");
    const signed = await of('V-x,02/04/2025,"1.250,5",170,,\nV-x,02/04/2025,"1,250.5",170,,\n');
    expect(signed.questions.map(({ code }) => code)).toContain("numbers-contradict");
  });

  it("is bounded, whatever the file holds", async () => {
    async function* wild() {
      yield `${head},Dry 1 psi\n`;
      for (let i = 0; i < 5_000; i++) yield `V-${i},${i % 31}/${i % 12}/2025 ${i},${i}.${i} u${i},${i},5 w${i}\n`;
      yield `"${"x".repeat(1 << 20)}",a\n`;
    }
    const sample = (await sampleFile({ source: wild() })) ?? nothing;
    expect(sample.records.length).toBeLessThanOrEqual(600);
    expect(JSON.stringify(sample).length).toBeLessThan(1 << 19);
  });

  it("of a file that is no text is none", async () => {
    async function* zeros() {
      yield new Uint8Array(64);
    }
    expect(await sampleFile({ source: zeros() })).toBeNull();
  });
});

describe("a hostile file", () => {
  /** Ends on any machine, however busy; what hangs takes minutes. */
  const few = 30_000;
  /** Words of no language, each another one, near enough to those of the trade to be looked at. */
  const junk = (count: number, from: number) =>
    Array.from({ length: count }, (_, i) => `${((from + i) * 7919).toString(36)}eadng`.replace(/\d/g, "r")).join(" ");
  const grid = (cell: (row: number, column: number) => string) =>
    Array.from({ length: 40 }, (_, row) => Array.from({ length: 60 }, (_, column) => cell(row, column)).join(",")).join(
      "\n",
    );

  it.each([
    [
      "forty rows of sixty headings of junk",
      `${grid((row, column) => junk(10, 600 * row + 10 * column))}\n${head},Dry 1 psi\n${at},170`,
    ],
    [
      "forty rows of sixty labels",
      `${grid((row, column) => `Label ${row} ${column}: Unit: x`)}\n${head},Dry 1 psi\n${at},170`,
    ],
    ["a hundred thousand columns", `${Array.from({ length: 100_000 }, (_, i) => `c${i}`).join(",")}\n1,2`],
    [
      "a thousand headings that nobody knows",
      `${head},Dry 1 psi,${Array.from({ length: 990 }, (_, i) => `wxyz${i}abc qrst`).join(",")}\n${at},170`,
    ],
    ["a megabyte of one heading", `${head},Dry 1 psi,${"leak ".repeat(200_000)}\n${at},170,1`],
    ["a megabyte of one cell", `${head},Dry 1 psi\n${at},${"1 ".repeat(500_000)}\n${at},${"1/".repeat(500_000)}`],
    ["names of the language", `${head},__proto__,constructor,Dry 1 psi\n${at},__proto__,constructor,170`],
    ["headings of one word alone", `Dry,Dry,Dry,Dry\n1,2,3,4`],
  ])("of %s gives a suggestion or a question, soon", (_, text) => {
    const begun = performance.now();
    const { questions, layout } = suggest(text);
    expect(questions.length > 0 || layout !== null).toBe(true);
    expect(performance.now() - begun).toBeLessThan(few);
  });
});

import { describe, expect, it } from "vitest";
import type { TestFact } from "@/lib/schema/facts.ts";
import { csvOf, readText, goodRow as rowOfFour } from "../lib/intake/read-text.ts";
import { models, today } from "./good-files.ts";

/** Hostile and broken files by name: what is taken of each, and what is said of the rest. */

const goodRow = { ...rowOfFour, engine_model: "petrol-4-a", cylinder: "2" };
const read = (given: string | Uint8Array) => readText(given, { known: { models, units: new Map(), today } });
/** One row after a good one and before another. */
const between = (row: Readonly<Record<string, string>>) =>
  read(
    csvOf([
      { ...goodRow, cylinder: "1" },
      { ...goodRow, ...row },
      { ...goodRow, cylinder: "3" },
    ]),
  );
const cylinders = (tests: readonly TestFact[]) => tests.flatMap((test) => test.readings.map((r) => r.cylinder));
const longestWords = 1_000;

describe("a file", () => {
  it.each([
    ["empty", "", "the file is empty"],
    ["of blank lines alone", "\n \r\n\t\n", "the file is empty"],
    ["binary", Uint8Array.from({ length: 4096 }, (_, i) => (i * 73) % 256), "not UTF-8 text"],
    ["a picture", Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13]), "not UTF-8 text"],
    ["with NUL bytes", csvOf([goodRow]).replace("V-1", "V\0-1"), "the file is not text (it holds zero bytes)"],
  ])("%s is refused in one sentence", async (_title, given, why) => {
    const { fileRefused, words, tests } = await read(given);
    expect(fileRefused).toBe(true);
    expect(words).toEqual([expect.stringContaining(why)]);
    expect(tests).toEqual([]);
  });

  it("with a header alone says so", async () => {
    const { words, fileRefused } = await read(csvOf([goodRow]).split("\n")[0] ?? "");
    expect(fileRefused).toBe(false);
    expect(words).toEqual(["the file has a header but no rows"]);
  });

  it("cut off in a row keeps the rows before it", async () => {
    const whole = csvOf([{ ...goodRow, cylinder: "1" }, goodRow, { ...goodRow, cylinder: "3" }]);
    const { tests, words } = await read(whole.slice(0, whole.lastIndexOf(",12.5")));
    expect(cylinders(tests)).toEqual([1, 2]);
    expect(words.every((why) => why.startsWith("line 4"))).toBe(true);
    expect(words).not.toEqual([]);
  });

  it("cut off in a quoted cell keeps the rows before it", async () => {
    const whole = csvOf([
      { ...goodRow, remarks: "a, b" },
      { ...goodRow, cylinder: "3", remarks: "c, d" },
    ]);
    const { tests, words } = await read(whole.slice(0, whole.lastIndexOf(" d")));
    expect(cylinders(tests)).toEqual([2]);
    expect(words).toEqual([expect.stringContaining("line 3: a quote")]);
  });

  it("with mixed line ends is read line by line", async () => {
    const lines = csvOf([1, 2, 3, 4].map((n) => ({ ...goodRow, cylinder: `${n}` })))
      .trimEnd()
      .split("\n");
    const { tests, issues } = await read(["\r\n", "\r", "\n", "\r\r\n", ""].map((end, i) => lines[i] + end).join(""));
    expect(cylinders(tests)).toEqual([1, 2, 3, 4]);
    expect(issues).toEqual([]);
  });

  it("of 100,000 columns is read, and what is said of them can be read too", async () => {
    const strange = Array.from({ length: 100_000 }, (_, i) => `column ${i}`);
    const [header = "", row = ""] = csvOf([goodRow]).split("\n");
    const { tests, words } = await read(`${header},${strange.join(",")}\n${row}${",x".repeat(strange.length)}\n`);
    expect(cylinders(tests)).toEqual([2]);
    expect(words).toEqual([expect.stringContaining("and 99,988 more are not known")]);
    expect(words.every((why) => why.length < longestWords)).toBe(true);
  });

  it.each([
    ["of one name", ",unit"],
    ["without a name", ","],
    ["of one long name", `,${"x".repeat(500)}`],
  ])("of 100,000 columns %s is told of in a few words", async (_title, column) => {
    const header = csvOf([goodRow]).split("\n")[0] ?? "";
    const { issues, words } = await read(`${header}${column.repeat(100_000)}\n`);
    expect(issues.length).toBeGreaterThan(0);
    expect(issues.length).toBeLessThan(30);
    expect(words.every((why) => why.length < longestWords)).toBe(true);
  });

  it("with a header twice is refused, both named", async () => {
    const { fileRefused, words } = await read(csvOf([{ ...goodRow, Unit: "V-2", "test date": "2026-01-01" }]));
    expect(fileRefused).toBe(true);
    expect(words).toEqual([
      'the columns "unit" and "Unit" are the same column; keep one',
      'the columns "test_date" and "test date" are the same column; keep one',
    ]);
  });

  it("with __proto__ and constructor as headers is read, and they are ignored like any other", async () => {
    const [header = "", row = ""] = csvOf([goodRow]).split("\n");
    const { tests, words } = await read(`${header},__proto__,constructor,toString\n${row},a,b,c\n`);
    expect(cylinders(tests)).toEqual([2]);
    expect(words).toEqual(['the columns "__proto__", "constructor" and "toString" are not known and were ignored']);
    expect(({} as Record<string, unknown>)["a"]).toBeUndefined();
  });
});

describe("a quote that is never closed", () => {
  it("costs its own row alone, also where a later cell begins with the delimiter", async () => {
    const rows = [1, 2, 3, 4].map((n) => ({ ...goodRow, cylinder: `${n}`, remarks: n === 3 ? ", worn" : "" }));
    const { tests, words } = await read(csvOf(rows).replace("V-1", '"V-1'));
    expect(cylinders(tests)).toEqual([2, 3, 4]);
    expect(words).toEqual([expect.stringContaining("line 2: a quote")]);
  });
});

describe("a row", () => {
  const remarks = "x".repeat(1_000_000);
  it.each([
    ["a cell of 1 MB", { remarks }, "remarks: the text is too long (1000000 characters)"],
    ["a number of 1 MB", { value: "1".repeat(1_000_000) }, "is not a number"],
    ["NaN", { value: "NaN" }, '"NaN" is not a number'],
    ["Infinity", { meter: "Infinity" }, '"Infinity" is not a number'],
    ["a number beyond all numbers", { meter: "1e999" }, '"1e999" is not a number'],
    ["a number in hexadecimal", { value: "0x10" }, '"0x10" is not a number'],
    ["Arabic digits", { value: "١٢" }, '"١٢" is not a number'],
    ["full-width digits", { value: "１２" }, '"１２" is not a number'],
    ["Arabic digits in a date", { test_date: "٢٠٢٦-٠٣-٠٢" }, "is not a date"],
    ["the 30th of February", { test_date: "2026-02-30" }, "there is no date 2026-02-30"],
    ["the year 0", { test_date: "0000-01-01" }, "there is no date 0000-01-01"],
    ["a day to come", { test_date: "9999-12-31" }, "lies after today"],
    ["a formula for a number", { value: "=6+6.5" }, '"=6+6.5" is not a number'],
    ["a control character in its name", { unit: "V\u00071" }, "holds a control character"],
    ["a name that leads elsewhere", { unit: ".." }, '".." is not a name'],
  ])("with %s is refused alone, in words that can be read", async (_title, row, why) => {
    const { tests, issues, words } = await between(row);
    expect(cylinders(tests)).toEqual([1, 3]);
    expect(words).toEqual([expect.stringContaining(why)]);
    expect(issues[0]).toMatchObject({ severity: "refused", line: 3 });
    expect(words[0]?.length).toBeLessThan(longestWords);
    expect(issues[0]?.value?.length).toBeLessThan(longestWords);
  });

  it.each(["1.25e1", "12.5", "+12.5", "125E-1"])("takes the number %s as written", async (value) => {
    const { tests } = await between({ value });
    expect(tests.flatMap((test) => test.readings.map((r) => r.value))).toEqual([12.5, 12.5, 12.5]);
  });

  it.each([
    "__proto__",
    "constructor",
    "<script>alert(1)</script>",
    "=HYPERLINK(0)",
    "../../etc/passwd",
    "C:\\nul",
    "a/b?c#d&e=%00",
    "\u202eV-1",
  ])("takes the name %s as nothing but a name", async (unit) => {
    const { tests, issues } = await between({ unit });
    expect(tests.map((test) => test.unit)).toEqual(["V-1", unit, "V-1"]);
    expect(issues).toEqual([]);
  });
});

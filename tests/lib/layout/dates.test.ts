import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addDate, findDateOrder as findOrder, noDates } from "@/lib/layout/date-order.ts";
import { readDate } from "@/lib/layout/dates.ts";

function findDateOrder(texts: readonly string[], today: string | null) {
  const evidence = noDates();
  for (const text of texts) addDate(evidence, text);
  return findOrder(evidence, today);
}

const read = (text: string) => {
  const found = readDate(text);
  return found.is === "date" ? found.text : found.is === "by-order" ? Object.fromEntries(found.dates) : null;
};

describe("a date", () => {
  it.each([
    ["2026-03-12", "2026-03-12"],
    ["2026/3/2", "2026-03-02"],
    ["20260312", "2026-03-12"],
    ["12 Mar 2026", "2026-03-12"],
    ["12-MAR-26", "2026-03-12"],
    ["March 12, 2026", "2026-03-12"],
    ["Thu 12th March 2026", "2026-03-12"],
    ["3 Sept 98", "1998-09-03"],
    ["2026-03-12T14:30", "2026-03-12 14:30"],
    ["12 Mar 2026 2:05 pm", "2026-03-12 14:05"],
    ["12 Mar 2026 12:05 am", "2026-03-12 00:05"],
  ])("%s is %s in whatever order", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it.each([
    ["36526", "2000-01-01"],
    ["46093", "2026-03-12"],
    ["46093.5", "2026-03-12 12:00"],
    ["46093.0", "2026-03-12"],
  ])("%s is the day number of %s", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it("in figures can be several dates", () => {
    expect(read("03/04/2026")).toEqual({ "day-first": "2026-04-03", "month-first": "2026-03-04" });
    expect(read("13.4.26")).toEqual({ "day-first": "2026-04-13" });
    expect(read("11-10-12")).toEqual({
      "day-first": "2012-10-11",
      "month-first": "2012-11-10",
      "year-first": "2011-10-12",
    });
    expect(read("3/4/26 9:15")).toEqual({ "day-first": "2026-04-03 09:15", "month-first": "2026-03-04 09:15" });
  });

  it.each([
    "",
    "soon",
    "31 Feb 2026",
    "32/01/2026",
    "29/02/2026",
    "12/03",
    "Mar 2026",
    "1234",
    "2026-13-01",
    "1/2/345",
    "12/03-2026",
  ])("is not made of %j", (text) => {
    expect(read(text)).toBeNull();
  });

  it("written in any order is found again by that order", () => {
    const day = fc.date({ min: new Date("1970-01-01"), max: new Date("2069-12-31"), noInvalidDate: true });
    fc.assert(
      fc.property(day, fc.constantFrom("/", ".", "-"), fc.boolean(), (date, sign, short) => {
        const iso = date.toISOString().slice(0, 10);
        const [year = "", month = "", dayOf = ""] = iso.split("-");
        const y = short ? year.slice(2) : year;
        const found = (text: string) => {
          const cell = readDate(text);
          return cell.is === "by-order" ? cell.dates : new Map();
        };
        expect(found([dayOf, month, y].join(sign)).get("day-first")).toBe(iso);
        expect(found([month, dayOf, y].join(sign)).get("month-first")).toBe(iso);
      }),
    );
  });
});

describe("the order of a column of dates", () => {
  it("is that by which every cell is a date", () => {
    expect(findDateOrder(["03/04/2026", "05/04/2026", "13/04/2026"], null)).toEqual({
      is: "found",
      order: "day-first",
      by: "13/04/2026",
    });
    expect(findDateOrder(["03/04/2026", "03/28/2026"], null)).toMatchObject({ order: "month-first", by: "03/28/2026" });
  });

  it("stays ambiguous where nothing tells; a date that would lie ahead makes an answer likely and is no proof", () => {
    const cells = ["03/04/2026", "02/09/2025"];
    expect(findDateOrder(cells, null)).toEqual({
      is: "ambiguous",
      example: "03/04/2026",
      orders: ["day-first", "month-first"],
      likely: null,
      by: null,
    });
    expect(findDateOrder(cells, "2026-03-31")).toMatchObject({ is: "ambiguous", likely: "month-first" });
    expect(findDateOrder(cells, "2026-06-30")).toMatchObject({ is: "ambiguous", likely: null });
    // A date ahead by either order may be a slip as well.
    expect(findDateOrder([...cells, "09/12/2026"], "2026-11-20")).toMatchObject({ is: "ambiguous" });
    expect(findDateOrder(["13/04/2026", "14/12/2026"], "2026-11-20")).toMatchObject({ order: "day-first" });
  });

  it("does not matter where no cell depends on it", () => {
    expect(findDateOrder(["2026-03-04", "4 Mar 2026", "46093"], null)).toEqual({ is: "no-matter" });
    expect(findDateOrder(["05/05/2026", "06/06/2025"], null)).toEqual({ is: "no-matter" });
  });

  it("is none where cells contradict each other", () => {
    expect(findDateOrder(["13/04/2026", "04/28/2026"], null)).toEqual({
      is: "contradictory",
      examples: ["13/04/2026", "04/28/2026"],
    });
  });

  it("is not year-first by a day that never was", () => {
    const cells = ["11-03-25", "12-06-25", "13-09-25"];
    for (const slip of ["31-11-25", "29-02-25"]) {
      expect(findDateOrder([...cells, slip], "2026-03-01")).toMatchObject({
        is: "ambiguous",
        orders: ["day-first", "year-first"],
        likely: "day-first",
      });
      expect(findDateOrder([slip], null)).toMatchObject({ is: "ambiguous", example: slip });
    }
    expect(findDateOrder(["31-11-25", "13-09-98"], null)).toMatchObject({ is: "found", order: "day-first" });
  });

  it.each([
    [["98-03-11", "11-03-12"], null],
    [["00-03-11", "11-03-12"], null],
    [["31-11-25", "30-02-11", "25-03-12"], "2040-01-01"],
  ])("is year-first by %j", (cells, today) => {
    expect(findDateOrder(cells, today)).toMatchObject({ is: "found", order: "year-first" });
  });

  it("is not told by one odd date among many", () => {
    const many = Array.from({ length: 12 }, (_, i) => `0${(i % 9) + 1}/0${((i * 5) % 9) + 1}/2025`);
    expect(findDateOrder([...many, "03/25/2026"], null)).toMatchObject({
      is: "ambiguous",
      likely: "month-first",
      by: "03/25/2026",
    });
    expect(findDateOrder([...many, "03/25/2026", "03/27/2026"], null)).toMatchObject({ is: "found" });
  });

  it.each([
    ["3/4/2026", "13/04/2026"],
    ["03/04/2026", "13/04/26"],
    ["03/04/2026 00:00", "13/04/2026"],
    ["03.04.2026", "13/04/2026"],
    ["2026-04-03", "13/04/2026"],
    ["3 Apr 2026", "13/04/2026"],
  ])("is not told of dates like %s by one that is written otherwise, %s", (one, other) => {
    expect(findDateOrder([one, other], null)).toEqual({ is: "turned", examples: [one, other] });
  });

  it("is not told from a column that a spreadsheet has turned in part", () => {
    expect(findDateOrder(["13/04/2026", "46093"], null)).toEqual({ is: "turned", examples: ["46093", "13/04/2026"] });
  });
});

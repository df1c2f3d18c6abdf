import { describe, expect, it } from "vitest";
import { asNumber, holdsWord, isAskedFor, searchable, searchTextOf, searchWords, withoutKind } from "@/db/searching.ts";

describe("text for finding", () => {
  it("knows neither case nor ways of writing a sign", () => {
    expect(searchable("Ｖ-1 ÄB")).toBe("v-1 äb");
    expect(searchable("A\u0308")).toBe("ä");
  });
  it("holds no control signs, so that a search of them alone asks for nothing", () => {
    expect(searchWords("\u0000\u0007")).toEqual([]);
    expect(searchWords("v\u0000109\n lowmarsh")).toEqual(["v", "109", "lowmarsh"]);
  });
});

describe("a number of something", () => {
  it.each([
    ["v109", "v-109"],
    ["v-109", "v109"],
    ["qp43543", "qp4-3543"],
  ])("%s is found in %s", (word, text) => expect(holdsWord(text, word)).toBe(true));
  it("is letters with digits: other words and signs are only themselves", () => {
    expect(asNumber("lowmarsh")).toBeNull();
    expect(asNumber("109")).toBeNull();
    expect(asNumber("-")).toBeNull();
    expect(holdsWord("low-marsh", "lowmarsh")).toBe(false);
    expect(holdsWord("unit 1 09", "109")).toBe(false);
  });
});

describe("the kind of what is looked for", () => {
  it("may be said with the name, and is not enough by itself", () => {
    expect(isAskedFor("Lowmarsh", "lowmarsh depot", "depot")).toBe(true);
    expect(isAskedFor("Lowmarsh", "depot", "depot")).toBe(false);
    expect(isAskedFor("Lowmarsh", "lowmarsh model", "depot")).toBe(false);
    expect(isAskedFor("Depot East", "depot", "depot")).toBe(true);
  });
  it("is left where nothing else is asked", () => {
    expect(withoutKind(["depots", "north"], "depot")).toEqual(["north"]);
    expect(withoutKind(["depot"], "depot")).toEqual(["depot"]);
  });
});

describe("what a row is found by", () => {
  it("is its names with and without dashes and blanks, and its other words as they stand", () => {
    expect(searchTextOf(["V-109", null, "Big 6"], ["Cyl 2", null, "limit 28"])).toBe(
      "v-109\nbig 6\nv109\nbig6\ncyl 2\nlimit 28",
    );
  });
});

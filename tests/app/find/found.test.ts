import { describe, expect, test } from "vitest";
import { foundPages, foundWords } from "@/app/_ui/find/found.ts";
import { pagesToFind } from "@/app/_ui/shell/places.ts";

describe("pages", () => {
  test("all of them where nothing is asked", () => {
    expect(foundPages("").map(({ href }) => href)).toEqual(pagesToFind.map(({ href }) => href));
  });
  test("a page of that title comes before one that tells of it", () => {
    expect(foundPages("IMP")[0]?.title).toBe("Import");
    expect(foundPages("demo fleet").map(({ title }) => title)).toEqual(["Import"]);
    expect(foundPages("no such page")).toEqual([]);
  });
});

describe("words", () => {
  test("are found by themselves first, then by their meaning, and lead to their line", () => {
    const [first, second] = foundWords("watch", 5);
    expect(first).toMatchObject({ title: "watch", href: "/words#watch" });
    expect(second).toBeUndefined();
    expect(foundWords("serial number", 5).map(({ title }) => title)).toEqual(["engine"]);
  });
  test("no more than asked for", () => {
    expect(foundWords("repair", 2)).toHaveLength(2);
  });
});

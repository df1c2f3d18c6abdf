import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { harmlessFileName, savedAs } from "@/app/api/_http/file-name.ts";

describe("the name of a file to save", () => {
  it.each([
    ["results.csv", "results.csv"],
    ["../../etc/passwd", "passwd"],
    ["C:\\fleet\\tests 2026.xlsx", "tests 2026.xlsx"],
    ["a/b/", "file"],
    ["..", "file"],
    [".hidden", "hidden"],
    ['x"\r\nset-cookie: a=b.csv', "x_set-cookie_ a_b.csv"],
    ["Prüfung (2).csv", "Prüfung (2).csv"],
    [`${"x".repeat(300)}.csv`, `${"x".repeat(116)}.csv`],
    ["\u202egnp.csv", "_gnp.csv"],
  ])("of %j is %j", (given, name) => expect(harmlessFileName(given)).toBe(name));

  it("is one line of ASCII in the header, with the letters beside it", () => {
    expect(savedAs("Prüfung.csv")).toBe("attachment; filename=\"Prufung.csv\"; filename*=UTF-8''Pr%C3%BCfung.csv");
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (given) => {
        expect(savedAs(given)).toMatch(/^attachment; filename="[^"\\\r\n]+"; filename\*=UTF-8''[\x21-\x7e]+$/);
      }),
    );
  });
});

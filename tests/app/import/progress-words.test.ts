import { describe, expect, test } from "vitest";
import { progressOf } from "@/app/_jobs/progress.ts";
import { progressWords, sendingWords } from "@/app/_ui/import/progress-words.ts";

describe("progress in words", () => {
  test("before it begins", () => expect(progressWords(null)).toEqual({ says: "Waits for its turn", share: null }));
  test("reading, with and without a known size", () => {
    expect(progressWords(progressOf("reading", { bytes: 1_800_000, totalBytes: 7_200_000, rows: 21_784 }))).toEqual({
      says: "Reading: 1.8 of 7.2 MB, 21,784 rows",
      share: 0.25,
    });
    expect(progressWords(progressOf("reading", { bytes: 73_000_000, rows: 1 }))).toEqual({
      says: "Reading: 73 MB, 1 row",
      share: null,
    });
  });
  test("keeping the files", () =>
    expect(progressWords(progressOf("keeping", { bytes: 30_000_000, totalBytes: 120_000_000 }))).toEqual({
      says: "Keeping the files as they are: 30 of 120 MB",
      share: 0.25,
    }));
  test("an empty file has no share", () =>
    expect(progressWords(progressOf("reading", { totalBytes: 0 })).share).toBeNull());
  test("units where they are counted", () => {
    expect(progressWords(progressOf("assessing", { units: 10, totalUnits: 40 }))).toEqual({
      says: "Assessing: 10 of 40 units",
      share: 0.25,
    });
    expect(progressWords(progressOf("checking", { units: 0, totalUnits: 0 })).share).toBeNull();
  });
  test("what stands already is told while the rest follows", () => {
    const assessing = progressOf("assessing", { units: 10, totalUnits: 40 });
    expect(progressWords(assessing, "commit").says).toBe(
      "The import is in and can be undone; its units are being assessed: 10 of 40 units",
    );
    expect(progressWords(assessing, "undo").says).toBe(
      "The import is undone; its units are being assessed: 10 of 40 units",
    );
    const fitting = progressOf("fitting", { units: 3, totalUnits: 12 });
    expect(progressWords(fitting, "commit")).toEqual({
      says: "The import is in and can be undone. Learning from engines of the same model: 3 of 12 engines",
      share: 0.25,
    });
    expect(progressWords(progressOf("committing"), "commit").says).toBe("Keeping the change, whole");
  });
  test("sending", () => expect(sendingWords("a.csv", 500_000, 12_000_000)).toBe("Sending a.csv: 0.5 of 12 MB"));
});

import { describe, expect, test } from "vitest";
import { importHistory } from "@/app/_ui/import/import-history.ts";
import {
  committedFinding,
  countsInShort,
  fileNames,
  groupIssues,
  importTitle,
  rowsAndFiles,
  stagedFinding,
  undoChangeQuestion,
  undoQuestion,
} from "@/app/_ui/import/import-words.ts";
import type { ImportDetail } from "@/db/imports.ts";
import type { Proposal } from "@/lib/schema/intake.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);

const file = (kind: ImportDetail["files"][number]["kind"]): ImportDetail["files"][number] => ({
  importId: "i",
  fileNo: 1,
  name: "results.csv",
  kind,
  readAs: null,
  layout: null,
  sha256: null,
  bytes: 0,
  rows: 0,
  refused: kind === null,
  newRows: 0,
  knownRows: 0,
  changedRows: 0,
  refusedRows: 0,
  warnedRows: 0,
});
const none = { newRows: 0, knownRows: 0, changedRows: 0, refusedRows: 0, warnedRows: 0, files: [file("tests-long")] };

describe("an import that waits", () => {
  test("says what is new, what changes and what is refused, and that nothing is kept yet", () =>
    expect(stagedFinding({ ...none, newRows: 214, changedRows: 3, refusedRows: 1 })).toBe(
      "214 new rows, three that change what is known and one refused. Nothing is kept until you commit.",
    ));
  test("one of each is told in the singular", () =>
    expect(stagedFinding({ ...none, newRows: 1, changedRows: 1 })).toBe(
      "One new row and one that changes what is known. Nothing is kept until you commit.",
    ));
  test("only changes: says that no row is new", () =>
    expect(stagedFinding({ ...none, changedRows: 2 })).toBe(
      "No new row, two that change what is known. Nothing is kept until you commit.",
    ));
  test("the same file again: nothing new", () =>
    expect(stagedFinding({ ...none, knownRows: 214 })).toBe("Nothing new: 214 rows are known already."));
  test("known and refused rows together", () =>
    expect(stagedFinding({ ...none, knownRows: 1, refusedRows: 2 })).toBe(
      "Nothing new: one row is known already, two are refused.",
    ));
  test("only refused rows", () =>
    expect(stagedFinding({ ...none, refusedRows: 4 })).toBe("Nothing can be taken in: four rows refused, none new."));
  test("a file without rows", () =>
    expect(stagedFinding(none)).toBe("Nothing can be taken in: there is no row that could be read."));
  test("a file that could not be read is told beside those that could", () => {
    const files = [file(null), file("tests-long")];
    expect(stagedFinding({ ...none, newRows: 2, files })).toBe(
      "Two new rows. Nothing is kept until you commit. One file could not be read: the reason stands below.",
    );
  });
  test("a file that was refused after its header was read is told as one that could not be read", () => {
    expect(stagedFinding({ ...none, files: [{ ...file("tests-long"), refused: true }] })).toMatch(
      /^The file could not/,
    );
  });
  test("no file could be read", () => {
    expect(stagedFinding({ ...none, files: [file(null)] })).toMatch(/^The file could not be read/);
    expect(stagedFinding({ ...none, files: [file(null), file(null)] })).toMatch(/^None of the two files could be read/);
  });
});

describe("an import that was committed", () => {
  const taken = { newRows: 214, changedRows: 3, takeChanges: false };
  test("counts changes only where they were taken", () => {
    expect(committedFinding(taken, { units: 40, changed: 3 })).toBe(
      "214 rows taken in. 40 units were assessed, three of them now in another band.",
    );
    expect(committedFinding({ ...taken, takeChanges: true }, { units: 0, changed: 0 })).toBe("217 rows taken in.");
  });
  test("all units in another band, or none", () => {
    expect(committedFinding(taken, { units: 1, changed: 1 })).toMatch(/One unit was assessed and stands in another/);
    expect(committedFinding(taken, { units: 2, changed: 0 })).toMatch(/ Two units were assessed\.$/);
  });
  test("asks before undoing, with what goes", () => {
    expect(undoQuestion(taken, 3)).toBe(
      "Undo this import? 214 rows go, and the assessments of 3 units go back to what they were without them.",
    );
    expect(undoQuestion({ newRows: 1, changedRows: 0, takeChanges: true }, 1)).toBe(
      "Undo this import? One row goes, and the assessment of one unit goes back to what it was without it.",
    );
    expect(undoQuestion(taken, 0)).toBe("Undo this import? 214 rows go.");
  });
  test("of a change made on a page, tells what it was and by whom, and asks for that", () => {
    const made = {
      origin: "form" as const,
      by: "R. Ames",
      files: [{ name: "Engine model x" }],
    };
    expect(importTitle(made)).toBe("Engine model x, changed by R. Ames");
    expect(importTitle({ ...made, origin: "file" })).toBe("Engine model x");
    expect(undoChangeQuestion(1)).toBe(
      "Undo this change? What stood before it stands again, and one unit is assessed by that.",
    );
    expect(undoChangeQuestion(0)).toBe("Undo this change? What stood before it stands again.");
  });
  test("tells who did what, in the fleet's time zone", () => {
    const acts = {
      origin: "file" as const,
      at: "2026-06-30T23:30:00.000Z",
      by: "R. Ames",
      committedAt: null,
      committedBy: null,
    };
    expect(importHistory({ ...acts, undoneAt: null, undoneBy: null }, "Europe/Berlin", f)).toEqual([
      "Read on 1 Jul 2026 by R. Ames.",
    ]);
    expect(
      importHistory(
        { ...acts, committedAt: acts.at, committedBy: "A", undoneAt: "2026-07-02T08:00:00.000Z", undoneBy: "B" },
        "UTC",
        f,
      ),
    ).toEqual(["Read on 30 Jun 2026 by R. Ames.", "Committed on 30 Jun 2026 by A.", "Undone on 2 Jul 2026 by B."]);
  });
});

describe("in a list", () => {
  test("counts that are nought are left out", () => {
    expect(countsInShort({ ...none, newRows: 1_214, warnedRows: 2 })).toBe("1,214 new, 2 with a warning");
    expect(countsInShort(none)).toBe("no rows");
  });
  test("files by name, many by number", () => {
    const named = (...names: string[]) => fileNames(names.map((name) => ({ name })));
    expect(named()).toBe("no file");
    expect(named("a.csv")).toBe("a.csv");
    expect(named("a.csv", "b.csv")).toBe("a.csv and b.csv");
    expect(named("a.csv", "b.csv", "c.csv")).toBe("a.csv and 2 more files");
  });
  test("what was said of one row is one entry, as the row is counted once", () => {
    const issue = (id: number, line: number | null, words: string) => ({
      id,
      severity: "refused" as const,
      file: "a.csv",
      line,
      column: /, (\w+):/.exec(words)?.[1] ?? null,
      value: "950",
      entry: null,
      words,
      proposals: null,
    });
    const issues = [
      issue(1, null, "is it meant?"),
      issue(2, 14, "line 14, value: 950 % is not a leakage"),
      issue(3, 14, 'line 14, meter: "x" is not a number'),
      issue(4, 15, "line 15: the row has 3 cells"),
    ];
    expect(groupIssues(issues)).toEqual([
      { id: 1, file: "a.csv", says: "Is it meant?", offers: [], cells: [] },
      {
        id: 2,
        file: "a.csv",
        says: 'Line 14, value: 950 % is not a leakage. Also meter: "x" is not a number.',
        offers: [],
        cells: [],
      },
      { id: 4, file: "a.csv", says: "Line 15: the row has 3 cells.", offers: [], cells: [] },
    ]);
    expect(groupIssues(issues.map((one) => ({ ...one, severity: "mention" as const })))).toHaveLength(4);
    const putRight = groupIssues(issues, ({ column }) => column !== null).map(({ cells }) => cells);
    expect(putRight).toEqual([
      [],
      [
        { issue: 2, line: 14, column: "value", value: "950" },
        { issue: 3, line: 14, column: "meter", value: "950" },
      ],
      [],
    ]);
    const entries = ["number 1", "number 2"].map((entry, id) => ({ ...issue(id, null, "no"), entry }));
    expect(groupIssues(entries)).toHaveLength(2);
  });
  test("what rows of one test may have meant is offered once", () => {
    const meter = { kind: "meter-digits", words: "Read the meter as 45 h" } as const;
    const cells = [2, 3].map((line) => ({ line, column: "meter", was: "54", value: "45" }));
    const issue = (id: number, line: number, more: readonly Proposal[] = []) => ({
      ...{ id, severity: "refused" as const, file: "a.csv", line, column: null, value: null, entry: null, words: "no" },
      proposals: [{ ...meter, cells }, ...more],
    });
    const other = { kind: "unit-name", words: "Read the unit as V-1", cells: [] } as const;
    expect(groupIssues([issue(7, 2), issue(8, 3, [other])]).map((group) => group.offers)).toEqual([
      [{ issue: 7, proposal: 0, words: "Read the meter as 45 h" }],
      [{ issue: 8, proposal: 1, words: "Read the unit as V-1" }],
    ]);
  });
  test("rows and files are told apart", () => {
    expect(rowsAndFiles(37, 3)).toBe("37 rows and 3 files");
    expect(rowsAndFiles(1, 0)).toBe("1 row");
    expect(rowsAndFiles(0, 1)).toBe("1 file");
    expect(rowsAndFiles(0, 0)).toBe("");
  });
});

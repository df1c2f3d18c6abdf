import type { ImportDetail, ImportIssueRow } from "../../../db/imports.ts";
import { countWord, listWords, numberWords, sentenceWords } from "../../../lib/wording.ts";
import { isEmptyFile, openQuestions } from "../../_jobs/open-questions.ts";

/** What the Import pages say of an import. All pure: rows in, sentences out. */

type Counts = Pick<ImportDetail, "newRows" | "knownRows" | "changedRows" | "refusedRows" | "warnedRows">;

const rows = (count: number): string => `${countWord(count)} ${count === 1 ? "row" : "rows"}`;

const unitsInWords = (count: number): string => `${countWord(count)} ${count === 1 ? "unit" : "units"}`;
const filesInWords = (count: number): string => `${countWord(count)} ${count === 1 ? "file" : "files"}`;

/** "214 new, 3 changed, 1 refused": the counts that are not nought; "no rows" where all are. */
export function countsInShort({ newRows, knownRows, changedRows, refusedRows, warnedRows }: Counts): string {
  const told = [
    [newRows, "new"],
    [knownRows, "known"],
    [changedRows, "changed"],
    [refusedRows, "refused"],
    [warnedRows, "with a warning"],
  ] as const;
  const words = told.filter(([count]) => count > 0).map(([count, word]) => `${numberWords(count)} ${word}`);
  return words.length === 0 ? "no rows" : words.join(", ");
}

/** The finding of an import that waits: what committing it would do. */
export function stagedFinding(detail: Counts & Pick<ImportDetail, "files">): string {
  const { newRows, knownRows, changedRows, refusedRows } = detail;
  const asked = detail.files.map((file) => openQuestions(file).length).filter((count) => count > 0);
  const waits = waitingWords(asked);
  if (asked.length > 0 && asked.length === detail.files.length)
    return `${detail.files.length === 1 ? waits.replace("One file", "The file") : waits} Nothing is read before.`;
  const unread = detail.files.filter((file) => file.refused).length - asked.length;
  if (detail.files.length > 0 && detail.files.every(isEmptyFile))
    return detail.files.length === 1
      ? "The file is empty. Nothing is kept of it."
      : `All ${filesInWords(unread)} are empty. Nothing is kept of them.`;
  if (unread > 0 && unread === detail.files.length) {
    return unread === 1
      ? "The file could not be read: the reason stands below. Nothing is kept of it."
      : `None of the ${filesInWords(unread)} could be read: the reasons stand below. Nothing is kept of them.`;
  }
  const couldNot =
    unread === 0 ? "" : ` ${sentenceWords(filesInWords(unread))} could not be read: the reason stands below.`;
  const notRead = `${waits === "" ? "" : ` ${waits}`}${couldNot}`;
  if (newRows === 0 && changedRows === 0) {
    if (knownRows > 0) {
      const refused =
        refusedRows === 0 ? "" : `, ${countWord(refusedRows)} ${refusedRows === 1 ? "is" : "are"} refused`;
      return `Nothing new: ${rows(knownRows)} ${knownRows === 1 ? "is" : "are"} known already${refused}.${notRead}`;
    }
    if (refusedRows > 0) return `Nothing can be taken in: ${rows(refusedRows)} refused, none new.${notRead}`;
    return `Nothing can be taken in: there is no row that could be read.${notRead}`;
  }
  const parts = [
    newRows > 0 ? `${countWord(newRows)} new ${newRows === 1 ? "row" : "rows"}` : null,
    changedRows > 0 ? `${countWord(changedRows)} that ${changedRows === 1 ? "changes" : "change"} what is known` : null,
    refusedRows > 0 ? `${countWord(refusedRows)} refused` : null,
  ].filter((part) => part !== null);
  const said = newRows === 0 ? `No new row, ${parts.join(", ")}` : sentenceWords(listWords(parts));
  return `${said}. Nothing is kept until you commit.${notRead}`;
}

/** "The file waits for an answer" of files with open questions, by how many each has; empty: none waits. */
function waitingWords(asked: readonly number[]): string {
  const [only, other] = asked;
  if (only === undefined) return "";
  if (other !== undefined) return `${sentenceWords(filesInWords(asked.length))} wait for answers.`;
  return `One file waits for ${only === 1 ? "an answer" : `${countWord(only)} answers`}.`;
}

/** What an import is called in a list: its files; of a change made on a page, what was changed and by whom. */
export const importTitle = ({
  origin,
  by,
  files,
}: Pick<ImportDetail, "origin" | "by"> & { readonly files: readonly { readonly name: string }[] }): string =>
  origin !== "file" ? `${files[0]?.name ?? "A page"}, changed by ${by}` : fileNames(files);

/** Rows that an import brought in when it was committed. */
export const takenRows = (detail: Pick<ImportDetail, "newRows" | "changedRows" | "takeChanges">): number =>
  detail.newRows + (detail.takeChanges ? detail.changedRows : 0);

/** The finding of a committed import. */
export function committedFinding(
  detail: Pick<ImportDetail, "newRows" | "changedRows" | "takeChanges">,
  outcome: { readonly units: number; readonly changed: number },
): string {
  const taken = takenRows(detail);
  return `${sentenceWords(rows(taken))} taken in.${assessedWords(outcome)}`;
}

/** What its commit did to units, after a full stop; empty: nothing. */
export function assessedWords({ units, changed }: { readonly units: number; readonly changed: number }): string {
  if (units === 0) return "";
  const assessed = ` ${sentenceWords(unitsInWords(units))} ${units === 1 ? "was" : "were"} assessed`;
  if (changed === 0) return `${assessed}.`;
  if (changed === units) return `${assessed} and ${units === 1 ? "stands" : "stand"} in another band now.`;
  return `${assessed}, ${countWord(changed)} of them now in another band.`;
}

/** Asked before an import is undone: what goes. */
export function undoQuestion(
  detail: Pick<ImportDetail, "newRows" | "changedRows" | "takeChanges">,
  units: number,
): string {
  const taken = takenRows(detail);
  const go = taken === 1 ? "goes" : "go";
  const assessments =
    units === 0
      ? ""
      : `, and the ${units === 1 ? "assessment of one unit goes" : `assessments of ${numberWords(units)} units go`} back to what ${units === 1 ? "it was" : "they were"} without ${taken === 1 ? "it" : "them"}`;
  return `Undo this import? ${sentenceWords(taken === 1 ? "one row" : `${numberWords(taken)} rows`)} ${go}${assessments}.`;
}

/** `line 14, value: 950 % is not …`, or the reason alone where the file as a whole is meant; ends in a full stop. */
const issueSentence = ({ words }: Pick<ImportIssueRow, "words">): string =>
  /[.?!…]$/.test(words) ? sentenceWords(words) : `${sentenceWords(words)}.`;

/** Asked before a change that was made on a page is undone. */
export const undoChangeQuestion = (units: number): string =>
  `Undo this change? What stood before it stands again${
    units === 0 ? "" : `, and ${units === 1 ? "one unit is" : `${numberWords(units)} units are`} assessed by that`
  }.`;

/** What was said of one row, of one entry of a list without lines, or of one file as a whole. */
export interface IssueGroup {
  readonly id: number;
  readonly file: string;
  readonly says: string;
  /** What may have been meant, to be taken: of rows that would be mended together, at the first alone. */
  readonly offers: readonly Offer[];
  /** Cells for which the row was refused and that can be put right by hand. */
  readonly cells: readonly WrongCell[];
}

export interface WrongCell {
  readonly issue: number;
  readonly line: number;
  readonly column: string;
  /** What it holds. */
  readonly value: string;
}

export interface Offer {
  readonly issue: number;
  readonly proposal: number;
  /** "Read the meter as 4,180 km" */
  readonly words: string;
}

/**
 * Issues in the order of their files and lines, those of the same row as one: a row is refused once. What is only
 * mentioned is not counted by rows, and each stands by itself.
 */
export function groupIssues(
  issues: readonly Pick<
    ImportIssueRow,
    "id" | "severity" | "file" | "line" | "column" | "value" | "entry" | "words" | "proposals"
  >[],
  mayPutRight: (issue: Pick<ImportIssueRow, "severity" | "file" | "line" | "column">) => boolean = () => false,
): readonly IssueGroup[] {
  const groups = new Map<string, IssueGroup>();
  const offered = new Set<string>();
  for (const issue of issues) {
    const row = JSON.stringify([issue.file, issue.line, issue.entry]);
    const key = issue.severity === "mention" ? String(issue.id) : row;
    const group = groups.get(key);
    const offers = offersOf(issue, offered);
    const cells = mayPutRight(issue) ? wrongCell(issue) : [];
    if (group === undefined)
      groups.set(key, { id: issue.id, file: issue.file, says: issueSentence(issue), offers, cells });
    else {
      const says = `${group.says} ${issueSentence({ words: further(issue) })}`;
      groups.set(key, {
        ...group,
        says,
        offers: [...group.offers, ...offers],
        cells: [...group.cells, ...cells.filter(({ column }) => group.cells.every((cell) => cell.column !== column))],
      });
    }
  }
  return [...groups.values()];
}

function wrongCell({
  id,
  line,
  column,
  value,
}: Pick<ImportIssueRow, "id" | "line" | "column" | "value">): readonly WrongCell[] {
  return line === null || column === null ? [] : [{ issue: id, line, column, value: value ?? "" }];
}

/** The proposals of an issue that were not offered before. */
function offersOf(
  { id, file, proposals }: Pick<ImportIssueRow, "id" | "file" | "proposals">,
  offered: Set<string>,
): readonly Offer[] {
  return (proposals ?? []).flatMap(({ words, cells, reset }, proposal) => {
    const key = JSON.stringify([file, cells, reset]);
    if (offered.has(key)) return [];
    offered.add(key);
    return [{ issue: id, proposal, words }];
  });
}

/** Without the line, which stands before the first reason already. */
const further = ({ line, words }: Pick<ImportIssueRow, "line" | "words">): string => {
  const place = `line ${line}, `;
  return line !== null && words.startsWith(place) ? `also ${words.slice(place.length)}` : words;
};

/** "37 rows and 3 files", as the list of them is headed. */
export function rowsAndFiles(rowCount: number, fileCount: number): string {
  const told = [
    rowCount > 0 ? `${numberWords(rowCount)} ${rowCount === 1 ? "row" : "rows"}` : null,
    fileCount > 0 ? `${numberWords(fileCount)} ${fileCount === 1 ? "file" : "files"}` : null,
  ].filter((part) => part !== null);
  return listWords(told);
}

export const stateWords = {
  staging: "being read",
  staged: "waits for you",
  committed: "taken in",
  undone: "undone",
  discarded: "discarded",
} as const satisfies Record<ImportDetail["state"], string>;

/** "results.csv", "a.csv and b.csv", "a.csv and 4 more files" */
export function fileNames(files: readonly { readonly name: string }[]): string {
  const [first, second, ...more] = files.map((file) => file.name);
  if (first === undefined) return "no file";
  if (second === undefined) return first;
  return more.length === 0 ? `${first} and ${second}` : `${first} and ${numberWords(more.length + 1)} more files`;
}

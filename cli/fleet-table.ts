import { placeOf } from "../lib/assessment/finding.ts";
import type { Crossing, UnitAssessment } from "../lib/schema/assessment.ts";
import { bands } from "../lib/schema/words.ts";
import { dateWords, numberWords } from "../lib/wording.ts";
import { table } from "./table.ts";

/** What the table needs of an assessment: some hundred bytes, where the whole is ten thousand. */
export interface TableRow {
  readonly band: UnitAssessment["band"];
  readonly cells: readonly string[];
  /** The unit, where its assessment carries warnings. */
  readonly warned: string | null;
}

const header = ["unit", "band", "weakest place", "meter", "last test", "top-end repair", "bottom-end repair"];

/** "2027-04-28 (2027-01-01 to 2027-11-24)": the likely date, and 8 in 10; "beyond": after the horizon. */
function crossingWords({ status, date }: Crossing): string {
  if (status === "crossed") return "due now";
  if (status === "too-few-tests") return "too few tests";
  if (date.p10 === null) return "not foreseen";
  if (date.p50 === null) return `likely beyond (from ${date.p10})`;
  return `${date.p50} (${date.p10} to ${date.p90 ?? "beyond"})`;
}

export function tableRow(assessment: UnitAssessment): TableRow {
  const { unit, band, meter, lastTestDate, repairs, warnings } = assessment;
  return {
    band,
    warned: warnings.length > 0 ? unit : null,
    cells: [
      unit,
      band ?? "never tested",
      placeOf(assessment).title,
      `${numberWords(meter.value)} ${meter.unit}`,
      lastTestDate ?? "never",
      crossingWords(repairs.topEnd),
      crossingWords(repairs.bottomEnd),
    ],
  };
}

const urgency = ({ band }: TableRow) => (band === null ? -1 : bands.indexOf(band));

/** So many units are named, the most urgent first. */
const namedAtMost = 20;

/** A table has no room for the words of warnings, but nobody should miss that there are some. */
function warningLine(sorted: readonly TableRow[]): string {
  const warned = sorted.flatMap(({ warned: unit }) => unit ?? []);
  if (warned.length === 0) return "";
  const more = warned.length - namedAtMost;
  const named = warned.slice(0, namedAtMost).join(", ");
  return `Warnings, in words with --json, on ${numberWords(warned.length)} ${warned.length === 1 ? "unit" : "units"}: ${named}${more > 0 ? ` and ${numberWords(more)} more` : ""}.\n`;
}

/** The fleet as a table, the most urgent first, a line that counts, and one that names units with warnings. */
export function fleetTable(rows: readonly TableRow[], asOf: string): string {
  const sorted = rows.toSorted((a, b) => urgency(b) - urgency(a));
  const counts = [...bands.toReversed(), null].flatMap((band) => {
    const count = rows.filter((row) => row.band === band).length;
    return count === 0 ? [] : [`${numberWords(count)} ${band ?? "never tested"}`];
  });
  const units = `${numberWords(rows.length)} ${rows.length === 1 ? "unit" : "units"}`;
  return `${table(
    header,
    sorted.map((row) => row.cells),
    [3],
  )}\n${units} on ${dateWords(asOf)}${counts.length === 0 ? "" : `: ${counts.join(", ")}`}.\n${warningLine(sorted)}`;
}

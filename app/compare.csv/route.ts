import { appStore } from "../../db/app-store.ts";
import type { CsvTable } from "../../lib/outtake/csv-table.ts";
import type { ModelComparison, WearCourse } from "../../lib/schema/comparison.ts";
import { type CompareView, readCompareAddress } from "../_ui/compare/address.ts";
import { bandTable, linesTable, standingsTable } from "../_ui/compare/compare-files.ts";
import { comparisonOf } from "../_ui/compare/comparison-of.ts";
import { compareLines } from "../_ui/compare/lines.ts";
import { addressParts } from "../api/_http/address-parts.ts";
import { answered, refusal } from "../api/_http/answers.ts";
import { csvTableFile } from "../api/_http/csv.ts";

/** One of the tables of the Compare page, of the view that the address asks for. */
export const GET = (request: Request) =>
  answered(async () => {
    const parts = addressParts(request);
    const view = readCompareAddress(parts);
    const { of, sisters } = await comparisonOf(await appStore(), view);
    if (of === null) return refusal(404, "Nothing can be compared yet.");
    const name = parts["table"]?.[0] ?? "units";
    const table = tableOf(name, of, sisters, { ...view, units: sisters.map(({ unit }) => unit) });
    if (table === null) return refusal(404, "The page has no table of this name.");
    return csvTableFile(`compare-${of.engineModel}-${of.measure}-${name}`, table);
  });

function tableOf(
  name: string,
  of: ModelComparison,
  sisters: readonly WearCourse[],
  view: CompareView,
): CsvTable | null {
  if (name === "units") return standingsTable(of);
  if (name === "lines") return linesTable(of, compareLines(sisters, view));
  if (name !== "band") return null;
  return bandTable(of, of.bands.find((b) => b.origin === view.since && b.figure === view.of) ?? null);
}

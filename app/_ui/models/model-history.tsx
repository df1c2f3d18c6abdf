import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { jobOfImport } from "../../api/_http/job-of-import.ts";
import { AppLink } from "../app-link.client.tsx";
import { ChangeCells } from "../change-cells.tsx";
import { CsvLink } from "../csv-link.tsx";
import { HistoryTable } from "../history-table.tsx";
import { importAddress } from "../import/address.ts";
import { undoChangeQuestion } from "../import/import-words.ts";
import { UndoForm } from "../import/undo-form.client.tsx";
import { Sheet } from "../sheet.tsx";
import { whenWords } from "../when.ts";
import { modelAddress } from "./address.ts";
import type { VersionRow } from "./version-rows.ts";

/** Who told what of a model, and when, newest first. */
export function ModelHistory(props: {
  readonly model: string;
  readonly rows: readonly VersionRow[];
  readonly timeZone: string;
  /** How many units an undo assesses. */
  readonly units: number;
  readonly mayChange: boolean;
  readonly f: Formats;
}) {
  const { model, rows, timeZone, units, mayChange, f } = props;
  return (
    <Sheet
      title="Versions"
      note="Who told what, and when, field by field. Nothing is overwritten."
      controls={<CsvLink href={`${modelAddress(model)}/versions.csv`} of={`versions of ${model}`} />}
      long
    >
      <HistoryTable name={`Versions of ${model}`} heads={["What", "Import"]} does="Undo">
        {rows.map((row) => (
          <tr key={row.importId} data-undone={row.state === "undone"}>
            <td>
              {row.committedAt === null ? "" : whenWords(f, timeZone, row.committedAt)}
              <br />
              <span className="second small">{stateOf(row, f, timeZone)}</span>
            </td>
            <td>{row.committedBy}</td>
            <td>{row.isFirst ? "Told for the first time" : <ChangeCells changes={row.changes} />}</td>
            <td>
              <AppLink href={importAddress(row.importId)}>
                {row.origin === "form" ? "What it moved" : "Files it came with"}
              </AppLink>
            </td>
            <td className="no-print">
              {mayChange && row.origin === "form" && row.state === "committed" && (
                <UndoForm
                  importId={row.importId}
                  question={f.words(undoChangeQuestion(units))}
                  isForm
                  job={jobOfImport(row.importId)}
                />
              )}
            </td>
          </tr>
        ))}
      </HistoryTable>
    </Sheet>
  );
}

function stateOf({ isInForce, undoneAt, undoneBy }: VersionRow, f: Formats, timeZone: string): string {
  if (undoneAt !== null) return sentenceWords(`undone by ${undoneBy ?? ""}, ${whenWords(f, timeZone, undoneAt)}`);
  return isInForce ? "In force" : "";
}

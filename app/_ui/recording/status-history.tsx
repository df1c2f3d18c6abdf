import type { StatusTold } from "../../../db/status-history.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { CsvLink } from "../csv-link.tsx";
import { HistoryTable } from "../history-table.tsx";
import { statusWords } from "../status-words.ts";
import { unitFilesAddress } from "../unit-address.ts";
import { ToldRow } from "./told-row.tsx";

/** Who stopped, released and retired a unit, when and why. */
export function StatusHistory(props: {
  readonly f: Formats;
  readonly unit: string;
  readonly told: readonly StatusTold[];
  readonly timeZone: string;
}) {
  const { f, unit, told, timeZone } = props;
  if (told.length === 0) return <p className="second">Nobody told a status yet: the unit is taken to be in service.</p>;
  return (
    <>
      <HistoryTable name={`Status of ${unit}`} heads={["Status", "Why"]} does="Undo">
        {told.map((one) => (
          <ToldRow
            key={one.importId}
            f={f}
            timeZone={timeZone}
            told={one}
            what={sentenceWords(statusWords[one.status])}
            why={one.reason ?? "not told"}
            undone={one.undoneBy}
          />
        ))}
      </HistoryTable>
      <p className="history-file no-print">
        <CsvLink href={`${unitFilesAddress(unit)}/status`} of={`status of ${unit}`} />
      </p>
    </>
  );
}

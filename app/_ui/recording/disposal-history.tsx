import type { DisposalTold } from "../../../db/disposal-history.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { CsvLink } from "../csv-link.tsx";
import { HistoryTable } from "../history-table.tsx";
import { unitFilesAddress } from "../unit-address.ts";
import { ToldRow } from "./told-row.tsx";

/** Who planned when a unit is to leave the fleet. */
export function DisposalHistory(props: {
  readonly f: Formats;
  readonly unit: string;
  readonly told: readonly DisposalTold[];
  readonly timeZone: string;
}) {
  const { f, unit, told, timeZone } = props;
  if (told.length === 0) return <p className="second">Nobody told a day yet: the unit is taken to stay.</p>;
  return (
    <>
      <HistoryTable name={`Planned disposal of ${unit}`} heads={["Leaves the fleet on", "By way of"]} does="Undo">
        {told.map((one) => (
          <ToldRow
            key={one.importId}
            f={f}
            timeZone={timeZone}
            told={one}
            what={f.date(one.date)}
            why="a form or a file"
            undone={one.undoneBy}
          />
        ))}
      </HistoryTable>
      <p className="history-file no-print">
        <CsvLink href={`${unitFilesAddress(unit)}/disposal`} of={`planned disposal of ${unit}`} />
      </p>
    </>
  );
}

import type { Formats } from "../../../lib/viewing/formats.ts";
import { ChangeCells } from "../change-cells.tsx";
import { CsvLink } from "../csv-link.tsx";
import { HistoryTable } from "../history-table.tsx";
import { PutBack } from "../put-back.client.tsx";
import { Sheet } from "../sheet.tsx";
import { whenWords } from "../when.ts";
import { layoutAddress } from "./address.ts";
import { putBackLayout } from "./kept-actions.ts";
import type { LayoutVersion } from "./layout-versions.ts";

/** Who kept which version of a layout, and when, newest first; each can be put back. */
export function LayoutHistory(props: {
  readonly name: string;
  readonly versions: readonly LayoutVersion[];
  readonly timeZone: string;
  readonly mayChange: boolean;
  readonly f: Formats;
}) {
  const { name, versions, timeZone, mayChange, f } = props;
  const latest = versions[0]?.id ?? 0;
  return (
    <Sheet
      title="Versions"
      note="Who kept what, and when. Nothing is overwritten; what is put back is one more version."
      controls={<CsvLink href={`${layoutAddress(name)}/versions.csv`} of={`versions of ${name}`} />}
      long
    >
      <HistoryTable name={`Versions of ${name}`} heads={["Version", "What"]} does="Put back">
        {versions.map((version) => (
          <tr key={version.id}>
            <td>{whenWords(f, timeZone, version.at)}</td>
            <td>{version.by}</td>
            <td>
              {f.number(version.no)}
              {version.isInForce && <span className="second small"> in force</span>}
            </td>
            <td>
              <Told version={version} />
              {version.withdrawn !== null && (
                <p className="second small">
                  Withdrawn by {version.withdrawn.by}, {whenWords(f, timeZone, version.withdrawn.at)}
                </p>
              )}
            </td>
            <td className="no-print">
              {mayChange && !version.isInForce && version.layout !== null && (
                <PutBack
                  action={putBackLayout.bind(null, name, version.id, latest)}
                  thing="this layout"
                  label="Put back"
                  what={`version ${version.no}, ${whenWords(f, timeZone, version.at)}`}
                />
              )}
            </td>
          </tr>
        ))}
      </HistoryTable>
    </Sheet>
  );
}

function Told({ version }: { readonly version: LayoutVersion }) {
  const { no, layout, changes, renamed } = version;
  if (layout === null) return <>Kept by another version of Borecast; this one cannot read it.</>;
  const name = renamed === null ? [] : [{ column: "name", before: renamed.from, after: renamed.to }];
  const all = [...name, ...changes];
  if (all.length > 0) return <ChangeCells changes={all} />;
  return <>{no === 1 ? "Kept for the first time" : "Kept without a change"}</>;
}

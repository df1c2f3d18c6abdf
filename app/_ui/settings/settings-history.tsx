import type { SettingChange } from "../../../db/settings.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { EmptyState } from "../empty-state.tsx";
import { HistoryTable } from "../history-table.tsx";
import { Sheet } from "../sheet.tsx";
import { whenWords } from "../when.ts";
import { settingTitles, settingWords } from "./setting-words.ts";

/** Who changed which setting, when, from what to what; a link puts the old value into the form. */
export function SettingsHistory(props: {
  readonly f: Formats;
  readonly changes: readonly SettingChange[];
  /** More changes than these are on file. */
  readonly more: boolean;
  readonly timeZone: string;
  readonly mayChange: boolean;
}) {
  const { f, changes, timeZone, mayChange } = props;
  return (
    <Sheet
      title="Who changed what"
      note="Putting back fills in the old value above; you see what it would change before it is in force."
      controls={changes.length > 0 && <CsvLink href="/settings.csv" of="all changes of settings" />}
      long
    >
      {changes.length === 0 ? (
        <EmptyState says="Nobody changed a setting yet: all are as by default." />
      ) : (
        <HistoryTable name="Changes of settings" heads={["Setting", "Was", "Became"]} does="Put back">
          {changes.map(({ id, name, before, after, by, at }) => (
            <tr key={id}>
              <td>{whenWords(f, timeZone, at)}</td>
              <td>{by}</td>
              <td>{settingTitles[name]}</td>
              <td>{settingWords(f, name, before)}</td>
              <td>{settingWords(f, name, after)}</td>
              <td className="no-print">
                {mayChange && (
                  <AppLink
                    href={`/settings?back=${id}`}
                    className="history-link"
                    aria-label={`Put back ${settingTitles[name]}: ${settingWords(f, name, before)}`}
                  >
                    Put back
                  </AppLink>
                )}
              </td>
            </tr>
          ))}
        </HistoryTable>
      )}
      {props.more && <p className="second">Older changes are kept, not shown.</p>}
    </Sheet>
  );
}

import type { ImportDetail } from "../../../db/imports.ts";

import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { EmptyState } from "../empty-state.tsx";
import { Sheet } from "../sheet.tsx";
import { viewerFormats } from "../viewer.ts";
import { dayWords } from "../when.ts";
import { importAddress } from "./address.ts";
import { countsInShort, importTitle, stateWords } from "./import-words.ts";

const openOne = "Open one to see its rows, to commit it or to undo it.";

/** The last imports, newest first: when, who, what, and what became of them. */
export async function ImportList(props: { readonly imports: readonly ImportDetail[]; readonly timeZone: string }) {
  const f = await viewerFormats();
  return (
    <Sheet
      title="Last imports"
      long
      {...(props.imports.length === 0
        ? {}
        : { note: openOne, controls: <CsvLink href="/imports.csv" of="all imports" /> })}
    >
      {props.imports.length === 0 ? (
        <EmptyState says="Nothing was imported yet." />
      ) : (
        <ul className="import-list">
          {props.imports.map((one) => (
            <li key={one.id}>
              <AppLink href={importAddress(one.id)} title={one.files.map((file) => file.name).join(", ")}>
                {importTitle(one)}
              </AppLink>
              <span className="import-state" data-state={one.state}>
                {stateWords[one.state]}
              </span>
              <span className="second">
                {dayWords(f, props.timeZone, one.at)} by {one.by}
              </span>
              <span className="second">{one.state === "staging" ? "" : f.words(countsInShort(one))}</span>
            </li>
          ))}
        </ul>
      )}
    </Sheet>
  );
}

import { columnGuide } from "../../../lib/intake/header.ts";
import type { CsvKind } from "../../../lib/schema/rows.ts";
import { fileKinds } from "../../../lib/schema/words.ts";
import { Sheet } from "../sheet.tsx";
import { kindsOfFile, sampleAddress } from "./file-kinds.ts";

/** What each kind of file may hold, made from what the parser itself uses, and a sample of each. */
export function ColumnHelp() {
  return (
    <Sheet
      title="What a file may hold"
      note="The header row tells what a file is. Order and case of columns do not matter; others are passed over. Dates as 2026-06-30, decimal points as dots. Encoding and delimiter are found out; of a workbook, the first sheet with headings that are known is read."
      long
    >
      {fileKinds.map((kind) => (
        <details key={kind} className="kind-help">
          <summary>{kindsOfFile[kind].title}</summary>
          <p>
            <a href={sampleAddress(kind)} download>
              Sample: {kindsOfFile[kind].sample}
            </a>{" "}
            <span className="second">(invented)</span>
          </p>
          {kind === "engine-models" ? <ModelHelp /> : <ColumnTable kind={kind} />}
        </details>
      ))}
    </Sheet>
  );
}

function ColumnTable({ kind }: { readonly kind: CsvKind }) {
  return (
    <table className="data-table column-table">
      <caption className="visually-hidden">Columns of: {kindsOfFile[kind].title}</caption>
      <thead>
        <tr>
          <th scope="col">Column</th>
          <th scope="col">Needed</th>
          <th scope="col">Content</th>
        </tr>
      </thead>
      <tbody>
        {columnGuide(kind).map(({ name, needed, about }) => (
          <tr key={name}>
            <th scope="row">
              <code>{name}</code>
            </th>
            <td>{needed}</td>
            <td>{about}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function ModelHelp() {
  return (
    <p>
      A JSON file with <code>schemaVersion</code> 1 and a list <code>engineModels</code>. A model needs its{" "}
      <code>id</code>, its number of <code>cylinders</code>, and one of <code>compression</code> (<code>newKpa</code>,{" "}
      <code>minimumKpa</code>) and <code>leakDown</code> (<code>watchPercent</code>, <code>planPercent</code>,{" "}
      <code>limitPercent</code>). Take the limits from the maker’s manual. The sample shows all that may be said.
    </p>
  );
}

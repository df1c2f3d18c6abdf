import type { ImportDetail, ImportFileRow } from "../../../db/imports.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { viewerFormats } from "../viewer.ts";
import { importAddress } from "./address.ts";
import { kindsOfFile } from "./file-kinds.ts";
import { countsInShort } from "./import-words.ts";

const columns = [
  ["rows", "Rows"],
  ["newRows", "New"],
  ["knownRows", "Known"],
  ["changedRows", "Changed"],
  ["refusedRows", "Refused"],
  ["warnedRows", "Warnings"],
] as const satisfies readonly (readonly [keyof ImportFileRow, string])[];

/** Each file: what it is, and what became of its rows. */
export async function FileSheet({
  importId,
  files,
  again,
}: {
  readonly importId: string;
  readonly files: ImportDetail["files"];
  readonly again: readonly string[];
}) {
  const f = await viewerFormats();
  const wide = files.some((file) => file.kind === "tests-wide") ? " Of a row for each test, every reading counts." : "";
  const note = `Known rows were brought by an earlier import and add nothing.${wide}`;
  return (
    <Sheet title="Files" note={note} controls={<CsvLink href={`${importAddress(importId)}/files.csv`} of="files" />}>
      <ul className="file-blocks">
        {files.map((file) => (
          <li key={file.fileNo}>
            <h3>{file.name}</h3>
            <p>
              <Kind file={file} again={again} />
            </p>
            <p className="second">{f.words(countsInShort(file))}</p>
          </li>
        ))}
      </ul>
      <ScrollBox name="Files and their rows">
        <table className="data-table file-table">
          <thead>
            <tr>
              <th scope="col">File</th>
              <th scope="col">What it is</th>
              {columns.map(([, title]) => (
                <th key={title} scope="col" className="number">
                  {title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {files.map((file) => (
              <tr key={file.fileNo}>
                <th scope="row">{file.name}</th>
                <td>
                  <Kind file={file} again={again} />
                </td>
                {columns.map(([key, title]) => (
                  <td key={title} className="number" data-nought={file[key] === 0} data-column={key}>
                    {f.number(file[key])}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </Sheet>
  );
}

function Kind({ file, again }: { readonly file: ImportFileRow; readonly again: readonly string[] }) {
  return (
    <>
      {file.kind !== null && kindsOfFile[file.kind].title}
      {file.refused && (
        <strong className="refused">{file.kind === null ? "not readable" : ", refused as a whole"}</strong>
      )}
      {again.includes(file.name) && <span className="second small"> (the very file was imported before)</span>}
    </>
  );
}

import type { ImportDetail, ImportFileRow } from "../../../db/imports.ts";
import { formatNumber } from "../formats.ts";
import { Sheet } from "../sheet.tsx";
import { kindsOfFile } from "./file-kinds.ts";

const columns = [
  ["rows", "Rows"],
  ["newRows", "New"],
  ["knownRows", "Known"],
  ["changedRows", "Changed"],
  ["refusedRows", "Refused"],
  ["warnedRows", "Warnings"],
] as const satisfies readonly (readonly [keyof ImportFileRow, string])[];

/** Each file: what it is, and what became of its rows. */
export function FileSheet({
  files,
  again,
}: {
  readonly files: ImportDetail["files"];
  readonly again: readonly string[];
}) {
  return (
    <Sheet title="Files" note="Known rows were brought by an earlier import and are not kept twice.">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must take the keyboard */}
      <section className="scroll-box" aria-label="Files and their rows" tabIndex={0}>
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
                  {file.kind === null ? (
                    <strong className="refused">not readable</strong>
                  ) : (
                    kindsOfFile[file.kind].title
                  )}
                  {again.includes(file.name) && (
                    <span className="second small"> (the very file was imported before)</span>
                  )}
                </td>
                {columns.map(([key, title]) => (
                  <td key={title} className="number" data-nought={file[key] === 0} data-column={key}>
                    {formatNumber(file[key])}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </Sheet>
  );
}

import type { ImportDetail, ImportFileRow } from "../../../db/imports.ts";
import { layoutOfRow } from "../../_jobs/file-layout.ts";
import { isEmptyFile, openQuestions } from "../../_jobs/open-questions.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { columnsAddress, layoutAddress } from "../layouts/address.ts";
import { layoutWords } from "../layouts/layout-words.ts";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { viewerFormats } from "../viewer.ts";
import { importAddress } from "./address.ts";
import { kindsOfFile } from "./file-kinds.ts";
import { countsInShort } from "./import-words.ts";
import { ReadAgain } from "./read-again.client.tsx";
import { readAsWords } from "./reading-words.ts";

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
  detail,
  again,
  kept,
  layouts,
  mayChange,
}: {
  readonly detail: ImportDetail;
  /** Names of files that were imported before, byte for byte. */
  readonly again: readonly string[];
  /** Numbers of the files that were kept as they were given. */
  readonly kept: ReadonlySet<number>;
  /** Names of the layouts that are on the books. */
  readonly layouts: ReadonlySet<string>;
  readonly mayChange: boolean;
}) {
  const { id, files, state } = detail;
  const otherwise = files.flatMap(({ name, readAs, kind }) =>
    // Nothing to choose for JSON, and for what is no text and has no sheet.
    readAs === null || kind === "engine-models" || (readAs.encoding === null && readAs.sheet === null)
      ? []
      : [{ name, readAs }],
  );
  const f = await viewerFormats();
  const wide = files.some((file) => file.kind === "tests-wide") ? " Of a row for each test, every reading counts." : "";
  const note = `Known rows were brought by an earlier import and add nothing.${wide}`;
  return (
    <Sheet title="Files" note={note} controls={<CsvLink href={`${importAddress(id)}/files.csv`} of="files" />}>
      <ul className="file-blocks">
        {files.map((file) => (
          <li key={file.fileNo}>
            <h3>{file.name}</h3>
            <p>
              <Kind file={file} again={again} />
            </p>
            <p className="second">{f.words(countsInShort(file))}</p>
            {kept.has(file.fileNo) && (
              <p className="no-print">
                <Original importId={id} file={file} /> <Refused importId={id} file={file} />
              </p>
            )}
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
                <th scope="row">{kept.has(file.fileNo) ? <Original importId={id} file={file} named /> : file.name}</th>
                <td>
                  <Kind file={file} again={again} /> {kept.has(file.fileNo) && <Refused importId={id} file={file} />}
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
      <ForeignColumns
        importId={id}
        files={files}
        layouts={layouts}
        mayChange={state === "staged" && mayChange && kept.size === files.length}
      />
      {state === "staged" && mayChange && kept.size === files.length && otherwise.length > 0 && (
        <ReadAgain importId={id} files={otherwise} />
      )}
    </Sheet>
  );
}

/** The way to the refused rows of a file with their reasons, to be mended and imported again. */
function Refused({ importId, file }: { readonly importId: string; readonly file: ImportFileRow }) {
  if (file.refusedRows === 0 || file.kind === "engine-models") return null;
  return (
    <a className="no-print" href={`/api/imports/${encodeURIComponent(importId)}/files/${file.fileNo}/refused`} download>
      Refused rows, with reasons
    </a>
  );
}

/** How the columns of foreign files were read, and the way to say it otherwise. */
function ForeignColumns(props: {
  readonly importId: string;
  readonly files: readonly ImportFileRow[];
  readonly layouts: ReadonlySet<string>;
  readonly mayChange: boolean;
}) {
  const foreign = props.files.flatMap((file) => {
    const told = layoutOfRow(file);
    return told === null || isEmptyFile(file) ? [] : [{ file, told }];
  });
  if (foreign.length === 0) return null;
  return (
    <ul className="foreign-columns">
      {foreign.map(({ file, told }) => (
        <li key={file.fileNo}>
          {layoutWords(file.name, told)}{" "}
          {told.layout !== null && told.name !== null && props.layouts.has(told.name) && (
            <>
              <AppLink href={layoutAddress(told.name)}>See the layout</AppLink>{" "}
            </>
          )}
          {props.mayChange && (
            <AppLink href={columnsAddress(props.importId, file.fileNo)}>
              {told.by === "contract"
                ? "Read it by a layout"
                : told.layout === null
                  ? "Say how its columns are read"
                  : "See its columns"}
            </AppLink>
          )}
        </li>
      ))}
    </ul>
  );
}

/** The way to the file as it was given. */
function Original({
  importId,
  file,
  named = false,
}: {
  readonly importId: string;
  readonly file: ImportFileRow;
  readonly named?: boolean;
}) {
  return (
    <a href={`/api/imports/${importId}/files/${file.fileNo}`} download>
      {named ? file.name : "Download"}
      <span className="visually-hidden">{named ? ", download" : ` ${file.name}`} as it was given</span>
    </a>
  );
}

function refusedWords(file: ImportFileRow): string {
  if (isEmptyFile(file)) return "empty";
  if (openQuestions(file).length > 0) return "waits for an answer";
  return file.kind === null ? "not readable" : ", refused as a whole";
}

function Kind({ file, again }: { readonly file: ImportFileRow; readonly again: readonly string[] }) {
  const isForeign = (layoutOfRow(file)?.layout ?? null) !== null;
  return (
    <>
      {file.kind !== null && (isForeign ? "Test results, in columns of their own" : kindsOfFile[file.kind].title)}
      {file.refused && <strong className="refused">{refusedWords(file)}</strong>}
      {readAsWords(file.readAs) !== "" && <span className="second small"> ({readAsWords(file.readAs)})</span>}
      {again.includes(file.name) && <span className="second small"> (the very file was imported before)</span>}
    </>
  );
}

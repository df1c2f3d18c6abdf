import { appStore } from "../../../../../../../db/app-store.ts";
import { importDetail } from "../../../../../../../db/imports.ts";
import { importErrorWords } from "../../../../../../_jobs/import-words.ts";
import { refusedRows } from "../../../../../../_jobs/refused-rows.ts";
import { answered, refusal } from "../../../../../_http/answers.ts";
import { csvFile } from "../../../../../_http/csv.ts";

interface Context {
  readonly params: Promise<{ readonly import: string; readonly file: string }>;
}

/** The refused rows of a file as CSV, each with why; `file` is its number within the import. */
export const GET = (_request: Request, { params }: Context) =>
  answered(async () => {
    const { import: importId, file: fileNo } = await params;
    const store = await appStore();
    const detail = await importDetail(store, importId);
    if (detail === null) return refusal(404, importErrorWords({ code: "unknown-import", importId }));
    const file = detail.files.find((one) => String(one.fileNo) === fileNo);
    const rows = file === undefined ? null : refusedRows(store, detail, file);
    const first = await rows?.next();
    const [head, ...more] = first?.value ?? [];
    if (rows === null || file === undefined || head === undefined) {
      return refusal(404, "No rows of this file are kept. Look at the import again.");
    }
    return csvFile(`refused rows of ${file.name.replace(/\.[^.]*$/, "")}`, head, andThen(more, rows));
  });

async function* andThen(first: readonly (readonly string[])[], rest: AsyncGenerator<readonly (readonly string[])[]>) {
  yield first;
  yield* rest;
}

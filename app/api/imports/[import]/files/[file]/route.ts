import { appStore } from "../../../../../../db/app-store.ts";
import { originalParts, originalsKept } from "../../../../../../db/import-originals.ts";
import { importDetail } from "../../../../../../db/imports.ts";
import { importErrorWords } from "../../../../../_jobs/import-words.ts";
import { answered, refusal } from "../../../../_http/answers.ts";
import { savedAs } from "../../../../_http/file-name.ts";
import { byteStream } from "../../../../_http/text-stream.ts";

interface Context {
  readonly params: Promise<{ readonly import: string; readonly file: string }>;
}

/** A file of an import as it was given, byte for byte; `file` is its number within the import. */
export const GET = (_request: Request, { params }: Context) =>
  answered(async () => {
    const { import: importId, file } = await params;
    const store = await appStore();
    const detail = await importDetail(store, importId);
    if (detail === null || detail.state === "discarded") {
      return refusal(404, importErrorWords({ code: "unknown-import", importId }));
    }
    const found = detail.files.find(({ fileNo }) => String(fileNo) === file);
    if (found === undefined) return refusal(404, "This import has no such file.");
    if (!(await originalsKept(store, importId)).has(found.fileNo)) {
      return refusal(404, "This file was not kept with its import.");
    }
    return new Response(byteStream(originalParts(store, importId, found.fileNo)), {
      headers: {
        "content-type": "application/octet-stream",
        "content-disposition": savedAs(found.name),
        ...(found.bytes === null ? {} : { "content-length": String(found.bytes) }),
        "cache-control": "no-store",
      },
    });
  });

import { appStore } from "../../db/app-store.ts";
import { listImports } from "../../db/imports.ts";
import { importsTable } from "../_ui/history-files.ts";
import { answered } from "../api/_http/answers.ts";
import { csvTableFile } from "../api/_http/csv.ts";

/** Every import that is on file; the page lists the last. */
export const GET = () =>
  answered(async () => {
    const imports = await listImports(await appStore(), { limit: Number.MAX_SAFE_INTEGER });
    return csvTableFile("imports", importsTable(imports));
  });

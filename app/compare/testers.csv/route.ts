import { testersTable } from "@/app/_ui/compare/compare-files.ts";
import { answered } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";
import { testerComparisonsKept } from "@/db/unit-courses.ts";

/** Every instrument of both kinds of test. */
export const GET = () =>
  answered(async () => csvTableFile("testers", testersTable(await testerComparisonsKept(await appStore()))));

import { callsTable } from "@/app/_ui/causes/calls-file.ts";
import { toldCalls } from "@/app/_ui/causes/told-calls.ts";
import { answered } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";

/** Every strip-down beside what was called before it. */
export const GET = () => answered(async () => csvTableFile("calls", callsTable(await toldCalls(await appStore()))));

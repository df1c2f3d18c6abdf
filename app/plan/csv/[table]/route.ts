import { planTableNames } from "@/app/_ui/plan-papers/address.ts";
import { planTable } from "@/app/_ui/plan-papers/read-tables.ts";
import { answered, refusal } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";

interface Context {
  readonly params: Promise<{ readonly table: string }>;
}

/** One of the tables of the plan as it stands as a file; `depot` in the address: of that one alone. */
export const GET = (request: Request, { params }: Context) =>
  answered(async () => {
    const { table } = await params;
    const name = planTableNames.find((one) => one === table);
    if (name === undefined) return refusal(404, "A plan has no table of this name.");
    const depot = new URL(request.url).searchParams.get("depot");
    const found = await planTable(await appStore(), name, { depot, now: new Date() });
    if (found === null) return refusal(404, "No plan was made yet.");
    return csvTableFile(depot === null ? `plan-${name}` : `plan-${name}-${depot}`, found);
  });

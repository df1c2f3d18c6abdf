import { answered, refusal } from "@/app/api/_http/answers.ts";
import { savedAs } from "@/app/api/_http/file-name.ts";
import { appStore } from "@/db/app-store.ts";
import { layoutVersions } from "@/db/layouts.ts";

interface Context {
  readonly params: Promise<{ readonly layout: string }>;
}

/** The newest version of a layout as a file that can be brought in again. The proxy answers for a layout that is not known. */
export const GET = (_request: Request, { params }: Context) =>
  answered(async () => {
    const { layout } = await params;
    const [row] = await layoutVersions(await appStore(), layout);
    if (row === undefined) return refusal(404, "There is no layout of this name.");
    return new Response(`${JSON.stringify(row.layout, null, 2)}\n`, {
      headers: {
        "content-type": "application/json; charset=utf-8",
        "content-disposition": savedAs(`${layout}.json`),
        "cache-control": "no-store",
      },
    });
  });

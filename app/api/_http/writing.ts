import { appStore } from "../../../db/app-store.ts";
import type { Store } from "../../../db/store.ts";
import type { Act } from "../../_jobs/progress.ts";
import { viewerName } from "../../_ui/viewer.ts";
import { viewerNameSchema } from "../../_ui/viewer-name.ts";
import { answered, refusal } from "./answers.ts";
import { isAskedByOwnName, isFromHere, otherHostWords } from "./from-here.ts";

/**
 * A request that changes something: refused where a page of another origin sent it, or where nobody says who does it.
 * A page's viewer has given a name once; a program gives it as `?by=`.
 */
export function writing(
  request: Request,
  work: (context: { readonly store: Store; readonly act: Act }) => Promise<Response>,
): Promise<Response> {
  return answered(async () => {
    if (!isAskedByOwnName(request.headers.get("host"), process.env["BORECAST_REACH"])) {
      return refusal(403, otherHostWords);
    }
    if (!isFromHere(request.headers)) {
      return refusal(403, "This request comes from a page of another site, so nothing was done.");
    }
    const given = new URL(request.url).searchParams.get("by") ?? (await viewerName());
    if (given === null) return refusal(400, "Say who does it: give a name on the page, or add ?by= and a name.");
    const named = viewerNameSchema.safeParse(given);
    if (!named.success) return refusal(400, named.error.issues[0]?.message ?? "That is not a name.");
    return work({ store: await appStore(), act: { by: named.data, now: new Date() } });
  });
}

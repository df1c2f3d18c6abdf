import { isAskedByOwnName, otherHostWords } from "./app/api/_http/from-here.ts";

/** Before every page and route: nothing is told or done for a request that asks for a host which is not ours. */
export function proxy({ headers, url }: Request): Response | undefined {
  if (isAskedByOwnName(headers.get("host"), process.env["BORECAST_REACH"])) return undefined;
  const init = { status: 403, headers: { "cache-control": "no-store" } };
  if (new URL(url).pathname.startsWith("/api/")) return Response.json({ error: otherHostWords }, init);
  return new Response(`${otherHostWords}\n`, init);
}

// Next holds the body of a request that comes by here in memory, and cuts it off at 10 MB. Uploads, which may be larger,
// are left to the same check in app/api/_http/writing.ts.
export const config = { matcher: "/((?!api/uploads/).*)" };

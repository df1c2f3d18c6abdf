import { type NextRequest, NextResponse } from "next/server";
import { notedVisit, visitsCookie } from "./app/_ui/changes/visits-cookie.ts";
import { namedIn, type Unknown, unknownHeader, unknownIn, unknownNameHeader } from "./app/_ui/known-address.ts";
import { isAskedByOwnName, otherHostWords } from "./app/api/_http/from-here.ts";
import { isPageRequest } from "./app/api/_http/page-request.ts";

/**
 * Before every page and route: nothing is told or done for a request that asks for a host which is not ours. A page that
 * is asked for is noted, so that the next visit can be told what changed since this one.
 */
export async function proxy(request: NextRequest): Promise<Response> {
  const { headers, url, cookies } = request;
  if (!isAskedByOwnName(headers.get("host"), process.env["BORECAST_REACH"])) {
    const init = { status: 403, headers: { "cache-control": "no-store" } };
    if (new URL(url).pathname.startsWith("/api/")) return Response.json({ error: otherHostWords }, init);
    return new Response(`${otherHostWords}\n`, init);
  }
  const { pathname } = new URL(url);
  const unknown = await unknownIn(pathname);
  if (unknown !== null && pathname.startsWith("/api/")) {
    const error = "This address cannot be read: it holds a % that stands for no letter.";
    return Response.json({ error }, { status: 404, headers: { "cache-control": "no-store" } });
  }
  const answer = unknown === null ? NextResponse.next() : unknownPage(request, unknown);
  if (isPageRequest(request)) answer.cookies.set(notedVisit(cookies.get(visitsCookie)?.value, Date.now()));
  return answer;
}

/** The page for what is not there, and its status: no route lies at the address that it is asked from. */
function unknownPage({ nextUrl, headers }: NextRequest, unknown: Unknown): NextResponse {
  const address = nextUrl.clone();
  address.pathname = "/unknown";
  const told = new Headers(headers);
  told.set(unknownHeader, unknown);
  // Still encoded: a header holds no letters beyond ASCII.
  told.set(unknownNameHeader, namedIn(nextUrl.pathname));
  return NextResponse.rewrite(address, { request: { headers: told } });
}

// Next holds the body of a request that comes by here in memory, and cuts it off at 10 MB. Uploads, which may be larger,
// are left to the same check in app/api/_http/writing.ts. What can be no upload's id still comes by.
export const config = { matcher: "/((?!api/uploads/[\\w-]+$).*)" };

/**
 * Whether a request that changes something comes from a page of this server, or from no page at all (a program). There
 * are no accounts, so a foreign page that a browser has open must not be able to write: browsers name the page's origin
 * with every such request.
 */
export function isFromHere(headers: Headers): boolean {
  const origin = headers.get("origin");
  if (origin === null) {
    const site = headers.get("sec-fetch-site");
    return site === null || site === "same-origin" || site === "none";
  }
  // A server in front names the host that the browser asked for; a page of another origin cannot set this header.
  const hosts = [headers.get("host"), headers.get("x-forwarded-host")];
  return URL.canParse(origin) && hosts.includes(new URL(origin).host);
}

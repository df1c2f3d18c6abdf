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

/**
 * Whether a request asks for a host that this server may answer to: while only this machine can reach it, by one of this
 * machine's own names. A foreign page whose name was made to lead here asks for its own, and its browser would take it
 * for a page of this server. Served to other machines, the server cannot know by which names they do so.
 * `reach`: BORECAST_REACH, set by the start command; anything but `network` means this machine alone.
 */
export function isAskedByOwnName(host: string | null, reach: string | undefined): boolean {
  if (reach === "network") return true;
  const address = `http://${host ?? ""}`;
  return URL.canParse(address) && /^(localhost|127(\.\d+){3}|\[::1\])$/.test(new URL(address).hostname);
}

export const otherHostWords =
  "Borecast answers here only at localhost, and this address names another host. To serve other machines, start it with --host.";

/**
 * Where whoever asks reaches this server ("http://workshop:3000"): what is read away from its pages, as a calendar is, can follow no
 * address that is told from its root alone.
 */
export function askedAt({ url, headers }: Pick<Request, "url" | "headers">): string {
  const own = new URL(url);
  // A server in front names the host and the scheme that it was asked with, of several in a row the first.
  const first = (name: string) => headers.get(name)?.split(",")[0]?.trim();
  const scheme = first("x-forwarded-proto") ?? own.protocol.slice(0, -1);
  const named = `${scheme}://${first("x-forwarded-host") ?? headers.get("host") ?? ""}`;
  return /^https?:/.test(named) && URL.canParse(named) ? new URL(named).origin : own.origin;
}

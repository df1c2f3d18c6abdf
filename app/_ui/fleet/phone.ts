/** Whether the browser says that it is a phone's: by its hint, or as phones name themselves. */
export function isPhone(headers: Pick<Headers, "get">): boolean {
  return headers.get("sec-ch-ua-mobile") === "?1" || /\bMobi/.test(headers.get("user-agent") ?? "");
}

/** Whether the browser says that it is a phone's: by its hint, else as phones name themselves. */
export function isPhone(headers: Pick<Headers, "get">): boolean {
  const hint = headers.get("sec-ch-ua-mobile");
  return hint === null ? /\bMobi/.test(headers.get("user-agent") ?? "") : hint === "?1";
}

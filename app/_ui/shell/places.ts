/** The pages that the header leads to, in order. A page is named here once it exists. */
export const places = [
  { href: "/", title: "Fleet" },
  { href: "/import", title: "Import" },
  { href: "/depots", title: "Depots" },
  { href: "/settings", title: "Settings" },
] as const;

/** Whether a place is the one being looked at; a unit and what changed belong to the Fleet. */
export function isHere(href: string, pathname: string): boolean {
  if (href === "/") return ["/", "/changes", "/units"].includes(pathname) || pathname.startsWith("/units/");
  return pathname === href || pathname.startsWith(`${href}/`);
}

/** The address of a unit's page. */
export const unitAddress = (unit: string): string => `/units/${encodeURIComponent(unit)}`;

/** The address of a unit's one printed page. */
export const unitSheetAddress = (unit: string): string => `${unitAddress(unit)}/sheet`;

/** The address of the page that tells why a unit's date is what it is: what decides it, or a class of repair or a cylinder. */
export function whyAddress(
  unit: string,
  { repair, cylinder }: { readonly repair?: "top-end" | "bottom-end"; readonly cylinder?: number } = {},
): string {
  const asked = new URLSearchParams({
    ...(repair !== undefined && { repair }),
    ...(cylinder !== undefined && { cylinder: String(cylinder) }),
  }).toString();
  return `${unitAddress(unit)}/why${asked === "" ? "" : `?${asked}`}`;
}

/** The address below which the tables of a unit's page are downloaded. */
export const unitFilesAddress = (unit: string): string => `${unitAddress(unit)}/csv`;

/** The name of a unit or engine that a part of an address names; null: it is no encoded text, as a lone % is none. */
export function nameInAddress(part: string): string | null {
  try {
    return decodeURIComponent(part);
  } catch {
    return null;
  }
}

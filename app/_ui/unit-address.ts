/** The address of a unit's page. */
export const unitAddress = (unit: string): string => `/units/${encodeURIComponent(unit)}`;

/** The unit that a part of an address names; null: it is no encoded text, as a lone % is none. */
export function unitOfAddress(part: string): string | null {
  try {
    return decodeURIComponent(part);
  } catch {
    return null;
  }
}

/** Which page of each list an import's page shows; kept in the address. */
export interface ImportView {
  readonly refused: number;
  readonly warnings: number;
  readonly mentions: number;
  readonly changes: number;
}

export const plainImportView: ImportView = { refused: 1, warnings: 1, mentions: 1, changes: 1 };

const lists = ["refused", "warnings", "mentions", "changes"] as const;

export const rowsOnPage = 50;

const pageOf = (written: string | string[] | undefined): number => {
  const text = Array.isArray(written) ? written[0] : written;
  return text !== undefined && /^[1-9]\d{0,5}$/.test(text) ? Number(text) : 1;
};

/** What is not understood counts as the first page. */
export const readImportAddress = (parts: Readonly<Record<string, string | string[] | undefined>>): ImportView => ({
  refused: pageOf(parts["refused"]),
  warnings: pageOf(parts["warnings"]),
  mentions: pageOf(parts["mentions"]),
  changes: pageOf(parts["changes"]),
});

/** The address of an import's page; first pages are left out of it. */
export function importAddress(importId: string, view: ImportView = plainImportView): string {
  const fields = lists.filter((list) => view[list] > 1).map((list) => `${list}=${view[list]}`);
  return `/import/${encodeURIComponent(importId)}${fields.length === 0 ? "" : `?${fields.join("&")}`}`;
}

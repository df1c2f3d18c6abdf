/** The address of the page on which it is said how the columns of one file of an import are read. */
export const columnsAddress = (importId: string, fileNo: number): string =>
  `/import/${encodeURIComponent(importId)}/columns?file=${fileNo}`;

/** The address of the list of kept layouts. */
export const layoutsAddress = "/import/layouts";

/** The address of the page of a kept layout. */
export const layoutAddress = (name: string): string => `${layoutsAddress}/${encodeURIComponent(name)}`;

export const layoutEditAddress = (name: string): string => `${layoutAddress(name)}/edit`;

/** The page of a layout after it was changed. */
export const layoutSavedAddress = (name: string): string => `${layoutAddress(name)}?saved=yes`;

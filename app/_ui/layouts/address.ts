/** The address of the page on which it is said how the columns of one file of an import are read. */
export const columnsAddress = (importId: string, fileNo: number): string =>
  `/import/${encodeURIComponent(importId)}/columns?file=${fileNo}`;

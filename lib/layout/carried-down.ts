import { convertField } from "./convert-cell.ts";
import type { FieldColumn, Layout } from "./layout.ts";

/** A field column of a layout with its place and spelling in the file that is read. */
export interface BoundField {
  readonly column: FieldColumn;
  readonly index: number;
  readonly spelled: string;
}

/**
 * The text of each field column of a record. A blank cell of a column that is carried down means what stands above it,
 * as merged cells come, but only as long as the cylinders count up: beyond that nothing tells which test a row is of.
 */
export function fieldTexts(
  fields: readonly BoundField[],
  layout: Layout,
): (record: readonly string[]) => ReadonlyMap<BoundField, string> {
  const cylinderField = fields.find(({ column }) => column.field === "cylinder");
  const above = new Map<BoundField, string>();
  let lastCylinder = Number.POSITIVE_INFINITY;
  return (record) => {
    const own = (bound: BoundField) => (record[bound.index] ?? "").trim();
    const read = cylinderField === undefined ? null : convertField("cylinder", own(cylinderField), layout);
    const cylinder = read?.ok === true && read.text !== "" ? Number(read.text) : Number.NaN;
    const sameGroup = cylinder > lastCylinder;
    lastCylinder = Number.isNaN(cylinder) ? Number.POSITIVE_INFINITY : cylinder;
    const textOf = (bound: BoundField): string => {
      const text = own(bound);
      if (!bound.column.carriedDown) return text;
      const carried = text === "" && sameGroup ? (above.get(bound) ?? "") : text;
      above.set(bound, carried);
      return carried;
    };
    return new Map(fields.map((bound) => [bound, textOf(bound)]));
  };
}

/** The record with what its blank cells carry down; `texts`: those of its field columns. */
export function withCarried(record: readonly string[], texts: ReadonlyMap<BoundField, string>): readonly string[] {
  const filled = [...record];
  for (const [{ column, index }, text] of texts) {
    if (column.carriedDown && (filled[index] ?? "").trim() === "") filled[index] = text;
  }
  return filled;
}

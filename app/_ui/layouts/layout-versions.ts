import type { LayoutRow } from "../../../db/layouts.ts";
import { type Layout, layoutSchema } from "../../../lib/layout/layout.ts";
import type { ChangeLine } from "../change-cells.tsx";
import { layoutChanges } from "./layout-changes.ts";

/** One version of a kept layout, for its page. */
export interface LayoutVersion {
  readonly id: number;
  /** From 1, the oldest. */
  readonly no: number;
  readonly at: string;
  readonly by: string;
  /** null: this version of the app cannot read it. */
  readonly layout: Layout | null;
  /** What it told otherwise than the version before it that can be read; none for the first. */
  readonly changes: readonly ChangeLine[];
  /** null: it kept the name of the version before it. */
  readonly renamed: { readonly from: string; readonly to: string } | null;
  readonly withdrawn: { readonly at: string; readonly by: string } | null;
  /** It tells how files are read now. */
  readonly isInForce: boolean;
}

/** The layout that a row holds; null: this version of the app cannot read it. */
export const layoutOf = (row: Pick<LayoutRow, "layout">): Layout | null =>
  layoutSchema.safeParse(row.layout).data ?? null;

/** The versions of one name, newest first, each with what it changed. A withdrawal is told at the version that stood then. */
export function layoutVersionsOf(rows: readonly LayoutRow[]): readonly LayoutVersion[] {
  const layouts = rows.map(layoutOf);
  return rows.map((row, i) => {
    const layout = layouts[i] ?? null;
    const before = layouts.slice(i + 1).find((older) => older !== null) ?? null;
    const isLastWithdrawn = row.withdrawn && row.withdrawnAt !== rows[i - 1]?.withdrawnAt;
    return {
      id: row.id,
      no: rows.length - i,
      at: row.at,
      by: row.by,
      layout,
      changes: layout === null || before === null ? [] : layoutChanges(before, layout),
      // Rows bear the name of today; what it was called then, the next one that was renamed tells.
      renamed:
        row.renamedFrom === null
          ? null
          : {
              from: row.renamedFrom,
              to: rows.slice(0, i).findLast(({ renamedFrom }) => renamedFrom !== null)?.renamedFrom ?? row.name,
            },
      withdrawn:
        isLastWithdrawn && row.withdrawnAt !== null ? { at: row.withdrawnAt, by: row.withdrawnBy ?? "" } : null,
      isInForce: i === 0 && !row.withdrawn,
    };
  });
}

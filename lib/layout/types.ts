import { longColumns } from "../schema/rows.ts";
import type { CellDoubt } from "./convert-cell.ts";
import type { LayoutField, LayoutGap } from "./layout.ts";

/** What a layout makes of the records of a file. */

export type CanonicalName = LayoutField | "value";
/** The columns of the rows that a layout gives: those of the contract's long layout, in this order. */
export const canonicalNames = Object.keys(longColumns) as readonly CanonicalName[];

/** One reading as a row of the contract. */
export interface CanonicalRow {
  /** By `canonicalNames`. */
  readonly cells: readonly string[];
  /** Which reading column of the layout it came from, by its place among them: the place of its `ReadingSource`. */
  readonly source: number;
}

/** Where the cells of a reading column's rows come from: for each name the heading in this file and its place. */
export interface ReadingSource {
  readonly places: ReadonlyMap<string, { readonly index: number; readonly spelled: string }>;
}

/** A cell that cannot be told, though intake would read something from it. */
export interface DoubtfulCell {
  readonly spelled: string;
  readonly value: string;
  readonly doubt: CellDoubt;
}

export type LayoutMismatch =
  | { readonly code: "layout-gaps"; readonly gaps: readonly LayoutGap[] }
  | { readonly code: "layout-header"; readonly missing: readonly string[] }
  /** The headings come again below a text, and the layout has one unit, date or meter reading for the whole file. */
  | { readonly code: "layout-blocks"; readonly said: string }
  | { readonly code: "layout-title"; readonly said: string; readonly held: string };

export type LayoutStep =
  /** Part of a title block, or the header once more. */
  | { readonly is: "title" }
  | { readonly is: "header-again" }
  | {
      readonly is: "opened";
      readonly width: number;
      /** What stands above the row of headings and belongs to it: its title block, and the upper row of a header of two. */
      readonly above: readonly (readonly string[])[];
      readonly sources: readonly ReadingSource[];
      readonly unknown: readonly string[];
    }
  /** A line of totals, or a remark that stands by itself: worth a mention. */
  | { readonly is: "left-out"; readonly why: "total" | "remark"; readonly text: string }
  /**
   * `record`: as it was read, with what was corrected, and in each blank cell that is carried down what stands above it.
   * `measured`: the row has a reading, be it one that cannot be told.
   */
  | {
      readonly is: "rows";
      readonly record: readonly string[];
      readonly rows: readonly CanonicalRow[];
      readonly doubts: readonly DoubtfulCell[];
      readonly measured: boolean;
    }
  | { readonly is: "refused"; readonly mismatch: LayoutMismatch };

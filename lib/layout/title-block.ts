import type { Measure, ValueUnit } from "../schema/words.ts";
import type { Layout } from "./layout.ts";
import { measureIn } from "./trade-words.ts";
import { valueUnitIn } from "./unit-words.ts";

/** Records above the header. */
export type TitleBlock = readonly (readonly string[])[];

const escaped = (word: string) => word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
const labelPattern = (label: string) => {
  const words = label.match(/[\p{L}\p{N}]+/gu) ?? [];
  return new RegExp(
    String.raw`^[^\p{L}\p{N}]*${words.map(escaped).join(String.raw`[^\p{L}\p{N}]+`)}(?![\p{L}\p{N}])[\s.:=–-]*(.*)$`,
    "isu",
  );
};

/** What stands after a label: in the same cell (`Unit: V-12`), else in the next cell that is not blank; null: nothing. */
export function valueAfter(title: TitleBlock, label: string): string | null {
  const pattern = labelPattern(label);
  for (const record of title) {
    for (const [i, cell] of record.entries()) {
      const rest = pattern.exec(cell)?.[1]?.trim();
      if (rest === undefined) continue;
      const found = rest === "" ? record.slice(i + 1).find((next) => next.trim() !== "") : rest;
      if (found !== undefined) return found.trim();
    }
  }
  return null;
}

/** Whether a record begins another title block: its first cell is one of the labels by which the layout reads one. */
export function beginsTitle(record: readonly string[], layout: Layout): boolean {
  const first = record.find((cell) => cell.trim() !== "") ?? "";
  return layout.title.some(({ label }) => labelPattern(label).test(first));
}

const only = <T>(found: readonly (T | null)[]): T | null => {
  const [first, ...others] = new Set(found.filter((value) => value !== null));
  return first !== undefined && others.length === 0 ? first : null;
};

/** Cells that name a measure or a unit without saying that the readings are of it: `Supply: 80 psi`, `Limit 30 %`. */
const ofSomethingElse =
  /gauge|tester|instrument|tool|limit|\bmin|\bmax|spec|supply|regulat|\bnew\b|orifice|restrictor|baro/i;

/** The measure and the unit that the title block names; null: none, or more than one. */
export function titleSays(title: TitleBlock): { readonly measure: Measure | null; readonly unit: ValueUnit | null } {
  const cells = title.flat().filter((cell) => !ofSomethingElse.test(cell));
  return { measure: only(cells.map(measureIn)), unit: only(cells.map(valueUnitIn)) };
}

/** What the title block says against what the layout holds of every such file; null: nothing. */
export function titleAgainst(
  layout: Layout,
  title: TitleBlock,
): { readonly said: string; readonly held: string } | null {
  const { measure, unit } = titleSays(title);
  const { test, value_unit } = layout.constants;
  if (measure !== null && test !== undefined && test !== measure) return { said: measure, held: test };
  return unit !== null && value_unit !== undefined && value_unit !== unit ? { said: unit, held: value_unit } : null;
}

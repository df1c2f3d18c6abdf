import { sentenceWords } from "../../../lib/wording.ts";
import type { FleetView } from "./address.ts";

/** How the rows are ordered, in words. */
export const orders = {
  due: "by due date",
  unit: "by unit",
  band: "by band",
  "last-test": "by last test",
  use: "by use",
  depot: "by depot",
  model: "by engine model",
  class: "by class",
  "next-test": "by next test",
  "top-chance": "by chance of a top-end repair",
  "bottom-chance": "by chance of a bottom-end repair",
} as const satisfies Record<FleetView["sort"], string>;

const filterWords = {
  sound: "sound",
  watch: "on watch",
  plan: "at plan",
  "past-limit": "past limit",
  "never-tested": "never tested",
  overdue: "no recent test",
  question: "question open",
} as const satisfies Record<NonNullable<FleetView["band"]>, string>;

const groupWords = { depot: "grouped by depot", model: "grouped by engine model", band: "grouped by band" } as const;

/** How the table is ordered: "grouped by depot, by due date, turned round". */
export const orderWords = ({ group, sort, descending }: FleetView): string =>
  [group === null ? null : groupWords[group], orders[sort], descending ? "turned round" : null]
    .filter((words) => words !== null)
    .join(", ");

/** What part of the fleet is looked at: "“valve”, depot Highcol, Big six"; empty: all of it. */
export const partWords = ({ search, depot, model }: FleetView, modelName: string | null): string =>
  [search === "" ? null : `“${search}”`, depot, model === null ? null : (modelName ?? model)]
    .filter((words) => words !== null)
    .join(", ");

/** The part and the filter, for paper, where no field shows them; empty: nothing is left out. */
export function narrowedWords(view: FleetView, modelName: string | null): string {
  const words = [partWords(view, modelName), view.band === null ? "" : filterWords[view.band]].filter(Boolean);
  // A depot or model that is named first stays as it was typed.
  return partWords(view, modelName) === "" ? sentenceWords(words.join("; ")) : words.join("; ");
}

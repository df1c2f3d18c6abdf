import { grouped } from "../changes/lists.ts";
import type { UnitOutlook } from "../plan/problem-of.ts";
import type { LeftOutUnit } from "../schema/budget-document.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { Workshop } from "../schema/workshop.ts";
import { firstNamed, listWords } from "../wording.ts";
import { whyNotDrawn } from "./problem-of.ts";

/** The units that a budget cannot tell any money of, by name; retired ones need none and are not among them. */
export function leftOutOf(
  outlooks: readonly UnitOutlook[],
  workshop: Workshop,
  firstMonday: IsoDate,
): readonly LeftOutUnit[] {
  return outlooks
    .flatMap((outlook): LeftOutUnit[] => {
      const why = whyNotDrawn(outlook, workshop, firstMonday);
      return why === null || why === "retired" ? [] : [{ unit: outlook.unit, engineModel: outlook.model.id, why }];
    })
    .toSorted((a, b) => (a.unit < b.unit ? -1 : 1));
}

/** Which units are left out of a budget, why, and what to do: a sentence or two for each reason. Empty: none is. */
export function leftOutSentences(leftOut: readonly LeftOutUnit[]): readonly string[] {
  return grouped(leftOut, ({ why }) => why).map(([why, units]) => {
    const names = units.map(({ unit }) => unit);
    const told = firstNamed(names);
    const [verb, they] = units.length === 1 ? ["is", "it"] : ["are", "they"];
    const models = [...new Set(units.map(({ engineModel }) => engineModel))].toSorted();
    const because = {
      "no-costs": `no hours and parts of a repair are told of ${listWords(models)}. Give them on the page of the engine model${models.length === 1 ? "" : "s"}, or in the file of models.`,
      "no-depot": `no depot is told, so nobody knows where ${they} would be repaired. Give one in the list of units.`,
      "too-few-tests": `neither own tests nor those of sister engines foresee anything. Book a baseline test.`,
    }[why];
    return `${listWords(told)} ${verb} not in the budget: ${because} What ${they} cost${units.length === 1 ? "s" : ""} comes on top.`;
  });
}

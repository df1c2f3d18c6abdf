import { unitAddress } from "../unit-address.ts";
import { type Choice, choiceHref } from "./choice.ts";

/** The Unit page at its tests, all of them or the latest only; what is chosen in the charts stays. */
export function testsAddress(unit: string, choice: Choice | null, isAll: boolean): string {
  if (choice !== null) return `${choiceHref(unit, { ...choice, allTests: isAll })}#tests`;
  return `${unitAddress(unit)}${isAll ? "?tests=all" : ""}#tests`;
}

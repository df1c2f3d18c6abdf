import { z } from "zod";
import type { RoundEntry } from "../../../lib/round/round-entry.ts";

/** More were never of one round; the oldest go first. */
const mostTicks = 2_000;

const kept = z.array(z.string());

/** What a tick stands for: this unit, until it is tested again. */
export const tickOf = ({ unit, lastTestDate }: Pick<RoundEntry, "unit" | "lastTestDate">): string =>
  JSON.stringify([unit, lastTestDate]);

/** The ticks that a device kept, in the order in which they were set; none where it holds something else. */
export function readTicks(text: string | undefined): readonly string[] {
  try {
    return kept.parse(JSON.parse(text ?? "[]"));
  } catch {
    return [];
  }
}

/** The ticks with one set or taken away. */
export const withTick = (ticks: readonly string[], tick: string, done: boolean): readonly string[] => {
  const others = ticks.filter((one) => one !== tick);
  return done ? [...others, tick].slice(-mostTicks) : others;
};

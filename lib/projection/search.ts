import { inOneGo } from "../steps.ts";

interface Highest {
  readonly at: readonly number[];
  readonly value: number;
}

/**
 * Maximum of a function of a few numbers by coordinate search (Hooke and Jeeves 1961, without its pattern move): each
 * number is tried a step up and down, steps double where they help and halve where they do not. Deterministic, needs no
 * derivative, and never leaves a place that is better. What has a first step of 0 stays as it is.
 */
export function highest(
  value: (at: readonly number[]) => number,
  start: readonly number[],
  firstStep: readonly number[],
  smallest: number,
): Highest {
  return inOneGo(highestSteps(value, start, firstStep, smallest));
}

/** The same by steps, one for each place that is tried, so that others may work in between. */
export function* highestSteps(
  value: (at: readonly number[]) => number,
  start: readonly number[],
  firstStep: readonly number[],
  smallest: number,
): Generator<void, Highest> {
  const at = [...start];
  const step = [...firstStep];
  let best = value(at);
  for (let sweep = 0; sweep < 60; sweep++) {
    for (let i = 0; i < at.length; i++) {
      if (firstStep[i] === 0) continue;
      const was = at[i] as number;
      let isBetter = false;
      for (const sign of [1, -1]) {
        at[i] = was + sign * (step[i] as number);
        const tried = value(at);
        yield;
        if (tried > best) {
          best = tried;
          isBetter = true;
          break;
        }
        at[i] = was;
      }
      step[i] = (step[i] as number) * (isBetter ? 1.5 : 0.4);
    }
    if (step.every((s, i) => s <= smallest * (firstStep[i] as number))) break;
  }
  return { at, value: best };
}

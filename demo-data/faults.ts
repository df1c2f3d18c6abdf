import type { Model } from "./engine-models.ts";
import type { SetUpFault } from "./plan.ts";
import type { Random } from "./random.ts";

/**
 * What goes wrong in one test of twenty: mostly to the bad side, and written down every other time. Sizes by the common
 * signatures of each fault (trade practice).
 */
const kinds: readonly ((random: Random, model: Model) => SetUpFault)[] = [
  (random) => {
    const [factor, shift] = [random.between(0.88, 0.94), random.between(4, 8)];
    return { compression: () => factor, leakage: (_, read) => read + shift, noted: { warm: "no" } };
  },
  (random) => {
    const factor = random.between(0.76, 0.84);
    return { compression: () => factor, noted: { throttle_open: "no" } };
  },
  (random) => {
    const factor = random.between(0.88, 0.92);
    const rpm = random.whole(112, 134);
    return {
      compression: (_, leakage) => factor - 0.003 * Math.max(0, leakage - 6),
      noted: { cranking_rpm: rpm },
    };
  },
  (random) => {
    const shift = random.between(4, 6);
    return { leakage: (_, read) => read + shift, noted: { gauge_zeroed: "no" } };
  },
  (random) => {
    const shift = random.between(8, 12);
    return { leakage: (_, read) => read + shift, noted: { heard: "none" } };
  },
  (random, model) => {
    const open = random.whole(1, model.cylinders);
    const shown = random.whole(92, 97);
    return {
      leakage: (cylinder, read) => (cylinder === open ? shown : read),
      noted: { tdc_confirmed: "no", [`heard_${open}`]: "inlet" },
    };
  },
  // The one that flatters: the valve core left in the hose.
  (random) => ({ leakage: () => random.between(0, 2), noted: {} }),
];

export function setUpFault(random: Random, model: Model): SetUpFault {
  const fits = kinds.filter((_, i) => i !== 1 || model.fuel === "petrol");
  const kind = fits[random.whole(0, fits.length - 1)] as (typeof kinds)[number];
  const fault = kind(random, model);
  if (random.uniform() < 0.5) return fault;
  const heard = Object.entries(fault.noted).filter(([column]) => column.startsWith("heard"));
  return { ...fault, noted: Object.fromEntries(heard) };
}

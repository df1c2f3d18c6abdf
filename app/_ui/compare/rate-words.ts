import type { ModelRates } from "../../../lib/schema/comparison.ts";
import type { JudgedMeasure, MeterUnit } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { rateBase } from "../../../lib/viewing/measures.ts";
import { type Domain, roundStep, roundTicks } from "../unit/axis.ts";
import { levelUnitOf } from "./compare-words.ts";

export type RateFigure = "weakest" | "middle";

export const rateFigureNames = {
  weakest: "fastest cylinder",
  middle: "middle of the cylinders",
} as const satisfies Record<RateFigure, string>;

/** What the page's address says. */
export interface RatesView {
  readonly measure: JudgedMeasure;
  readonly of: RateFigure;
}

export const ratesAddress = (view: RatesView): string => addressOf("/compare/rates", view);

/** Where the rates of a view are downloaded. */
export const ratesFileAddress = (view: RatesView): string => addressOf("/compare/rates.csv", view);

function addressOf(path: string, { measure, of }: RatesView): string {
  const query = new URLSearchParams();
  if (measure !== "leak-down") query.append("measure", measure);
  if (of !== "middle") query.append("of", of);
  const text = query.toString();
  return text === "" ? path : `${path}?${text}`;
}

export function readRatesAddress(parts: Readonly<Record<string, string | readonly string[] | undefined>>): RatesView {
  return {
    measure: parts["measure"] === "compression-dry" ? "compression-dry" : "leak-down",
    of: parts["of"] === "weakest" ? "weakest" : "middle",
  };
}

/** A common axis for rates: canonical, with ticks that are round where shown; nought is on it. */
export interface RateAxis {
  readonly ticks: readonly { readonly rate: number; readonly shown: number }[];
  /** Decimals of the ticks. */
  readonly digits: number;
  /** Place in per cent from the left. */
  left(perThousand: number): number;
}

export function rateAxis(f: Formats, measure: JudgedMeasure, meterUnit: MeterUnit, rates: readonly number[]): RateAxis {
  const base = rateBase(f.meterUnit(meterUnit), f.preferences) / 1_000;
  const factor = (base * f.levelFactor(levelUnitOf(measure))) / f.meterFactor(meterUnit);
  const [low, high] = [Math.min(0, ...rates) * factor, Math.max(0, ...rates) * factor];
  const step = roundStep(high > low ? high - low : 1, 4);
  const domain: Domain = [Math.floor(low / step) * step, Math.max(step, Math.ceil(high / step) * step)];
  const [from, to] = high <= 0 ? [domain[0], 0] : domain;
  return {
    ticks: roundTicks([from, to], 4).map((shown) => ({ shown, rate: shown / factor })),
    digits: Math.max(0, -Math.floor(Math.log10(step))),
    left: (perThousand) => (100 * (perThousand * factor - from)) / (to - from || 1),
  };
}

/** All that is drawn of a sisterhood. */
export const drawnRates = (model: ModelRates, of: RateFigure): number[] =>
  model.rates[of].flatMap(({ rates, quantiles }) => [
    ...rates,
    ...(quantiles === null ? [] : [quantiles.p10, quantiles.p90]),
  ]);

/** The page's first sentence, of the model with the most engines. */
export function ratesFinding(f: Formats, models: readonly ModelRates[], { measure, of }: RatesView): string {
  const groups = models.flatMap((model) => {
    const [whole] = model.rates[of];
    return whole?.quantiles == null ? [] : [{ model, whole, quantiles: whole.quantiles }];
  });
  const [largest] = groups.toSorted((a, b) => b.whole.engines - a.whole.engines);
  if (largest === undefined) return "No model has five engines with a rate of their own yet.";
  const { model, whole, quantiles } = largest;
  const loss = (perThousand: number) => f.rate(Math.abs(perThousand), levelUnitOf(measure), model.meterUnit);
  const figure = (perThousand: number) => f.rateFigure(Math.abs(perThousand), levelUnitOf(measure), model.meterUnit);
  const fast = measure === "leak-down" ? quantiles.p90 : quantiles.p10;
  const isLosing = measure === "leak-down" ? quantiles.p50 > 0 : quantiles.p50 < 0;
  const verb = measure === "leak-down" ? "gain" : "lose";
  const half = `${model.modelName}: half of ${f.number(whole.engines)} engines`;
  if (quantiles.p50 === 0) return `${half} hold their level.`;
  // Tests scatter: where wear is slow, half of the rates may well point the other way.
  if (!isLosing) return `${half} show no wear: their rates lie on the other side of nought.`;
  return `${half} ${verb} more than ${loss(quantiles.p50)}, the fastest tenth more than ${figure(fast)}.`;
}

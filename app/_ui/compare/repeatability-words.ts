import { type FleetRepeatability, repeatLimit } from "../../../lib/condition/fleet-repeatability.ts";
import type { JudgedMeasure } from "../../../lib/schema/words.ts";
import { sdInterval } from "../../../lib/statistics/chi-square.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { levelUnitOf } from "./compare-words.ts";
import { amountWords } from "./tester-words.ts";

/** What readings repeat to, in words and as rows. */

interface Line {
  readonly what: string;
  readonly sd: string;
  readonly interval: string;
  readonly from: string;
}

/** Under so many degrees of freedom an interval would tell nothing. */
const fewestForInterval = 5;

/** In plain words: by how much two tests of a sound engine differ. */
export function repeatWords(f: Formats, of: Readonly<Record<JudgedMeasure, FleetRepeatability>>): string {
  const limit = (measure: JudgedMeasure) => amountWords(f, measure, repeatLimit(of[measure].shared.sd));
  return `Two tests of a sound engine, made soon after each other with one instrument, differ as a whole by less than ${limit("leak-down")} of leakage, and ${limit("compression-dry")} of compression, 19 times in 20.`;
}

/** The rows of the table of one measure. */
export function repeatabilityLines(
  f: Formats,
  { measure, shared, between, own, instruments }: FleetRepeatability,
): Line[] {
  const amount = (sd: number) => amountWords(f, measure, sd);
  const interval = (sd: number, freedom: number) => {
    if (freedom < fewestForInterval) return "–";
    const [low, high] = sdInterval(sd, freedom);
    return `${f.number(low, 1)} to ${f.number(high, 1)}`;
  };
  const freedom = (count: number) => `${f.number(count)} ${Math.round(count) === 1 ? "degree" : "degrees"} of freedom`;
  const unit = levelUnitOf(measure);
  const repeats =
    shared.occasions === 0
      ? "starting value: no test has been repeated"
      : `${f.number(shared.tests)} tests on ${f.number(shared.occasions)} ${shared.occasions === 1 ? "occasion" : "occasions"}, ${freedom(shared.freedom)}`;
  return [
    { what: "Of a whole test", sd: amount(shared.sd), interval: interval(shared.sd, shared.freedom), from: repeats },
    ...(between === null
      ? []
      : [
          {
            what: "Between instruments",
            sd: amount(between.sd),
            interval: interval(between.sd, between.freedom),
            from: freedom(between.freedom),
          },
        ]),
    ...own.map(({ sd, level, freedom: of }) => ({
      what: `Of a reading itself, at about ${f.level(level, unit)}`,
      sd: amount(sd),
      interval: interval(sd, of),
      from: freedom(of),
    })),
    ...instruments.map(({ instrument, factor, freedom: of, counts }) => ({
      what: `${instrument}, a reading itself`,
      sd: `${f.number(factor, 2)} × the fleet’s`,
      interval: "–",
      from: `${freedom(of)}${counts ? "" : ", too few: counts as the fleet"}`,
    })),
  ];
}

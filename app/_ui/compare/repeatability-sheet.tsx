import { repeatDays } from "../../../lib/condition/family-fit.ts";
import { type FleetRepeatability, fewestForInstrument } from "../../../lib/condition/fleet-repeatability.ts";
import type { JudgedMeasure } from "../../../lib/schema/words.ts";
import { sdInterval } from "../../../lib/statistics/chi-square.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { levelUnitOf, measureNames } from "./compare-words.ts";
import { amountWords } from "./tester-words.ts";

interface Line {
  readonly what: string;
  readonly sd: string;
  readonly interval: string;
  readonly from: string;
}

/** What readings repeat to, by the fleet's own tests: what early warnings are judged by. */
export function RepeatabilitySheet(props: {
  readonly f: Formats;
  readonly of: Readonly<Record<JudgedMeasure, FleetRepeatability>>;
}) {
  const { f, of } = props;
  return (
    <Sheet
      title="What readings repeat to"
      note="standard deviations by the fleet’s own tests; early warnings are judged by them"
      long
    >
      {(["leak-down", "compression-dry"] as const).map((measure) => (
        <ScrollBox key={measure} name={`What ${measureNames[measure].toLowerCase()} repeats to`}>
          <table className="data-table repeatability-table">
            <caption>{measureNames[measure]}</caption>
            <thead>
              <tr>
                <th scope="col">Error</th>
                <th scope="col" className="number">
                  Standard deviation
                </th>
                <th scope="col" className="number">
                  95 % interval
                </th>
                <th scope="col">From</th>
              </tr>
            </thead>
            <tbody>
              {linesOf(f, of[measure]).map((line) => (
                <tr key={line.what}>
                  <th scope="row">{line.what}</th>
                  <td className="number">{line.sd}</td>
                  <td className="number">{line.interval}</td>
                  <td>{line.from}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
      ))}
      <p className="second">
        A whole test and instruments: from tests repeated within {f.number(repeatDays)} days with no repair between, by
        analysis of variance, weighed against the starting value. A reading’s own error: from the changes between an
        engine’s successive tests, less what all its cylinders changed by. An instrument counts by itself from{" "}
        {f.number(fewestForInstrument)} degrees of freedom on; the others count as the fleet.
      </p>
    </Sheet>
  );
}

function linesOf(f: Formats, { measure, shared, between, own, instruments }: FleetRepeatability): Line[] {
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

const fewestForInterval = 5;

import type { ModelRates, RateGroup } from "../../../lib/schema/comparison.ts";
import type { MeterUnit } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { compareAddress } from "./address.ts";
import { levelUnitOf } from "./compare-words.ts";
import { RateStrip } from "./rate-strip.tsx";
import { drawnRates, type RateAxis, type RatesView, rateAxis } from "./rate-words.ts";

const columns = ["10 %", "25 %", "Half", "75 %", "90 %"] as const;

/** Rates of all models whose meters count alike, on one axis; under each model its depots. */
export function RatesSheet(props: {
  readonly f: Formats;
  readonly models: readonly ModelRates[];
  readonly meterUnit: MeterUnit;
  readonly view: RatesView;
}) {
  const { f, models, meterUnit, view } = props;
  const axis = rateAxis(
    f,
    view.measure,
    meterUnit,
    models.flatMap((model) => drawnRates(model, view.of)),
  );
  const what = view.measure === "leak-down" ? "points of leakage" : f.levelUnit("kPa");
  return (
    <Sheet
      title={`Over ${meterUnit === "h" ? "hours" : f.meterUnit(meterUnit)}`}
      note={`${what} ${f.ratePer(meterUnit)}; a dot is an engine, the box holds the middle half, the line 8 in 10`}
      long
    >
      <ScrollBox name={`Rates over ${f.meterUnit(meterUnit)}`}>
        <table className="data-table rates-table">
          <caption className="visually-hidden">Rates by model and depot: below them lie so many in a hundred</caption>
          <thead>
            <tr>
              <th scope="col">Model, depot</th>
              <th scope="col" className="number">
                Engines
              </th>
              {columns.map((head) => (
                <th key={head} scope="col" className="number">
                  {head}
                </th>
              ))}
              <th scope="col" className="rates-axis">
                <span className="visually-hidden">Drawn</span>
                <AxisHead f={f} axis={axis} />
              </th>
            </tr>
          </thead>
          {models.map((model) => (
            <tbody key={model.engineModel}>
              {model.rates[view.of].map((group) => (
                <RateRow
                  key={group.depot === undefined ? "all" : `of ${group.depot}`}
                  f={f}
                  group={group}
                  model={model}
                  axis={axis}
                  view={view}
                />
              ))}
            </tbody>
          ))}
        </table>
      </ScrollBox>
    </Sheet>
  );
}

function AxisHead({ f, axis }: { readonly f: Formats; readonly axis: RateAxis }) {
  return (
    <svg width="100%" height="18" overflow="visible" aria-hidden="true">
      {axis.ticks.map(({ rate, shown }) => (
        <text key={rate} x={`${axis.left(rate).toFixed(2)}%`} y="13" textAnchor="middle" className="plot-tick">
          {f.number(shown, axis.digits)}
        </text>
      ))}
    </svg>
  );
}

function RateRow(props: {
  readonly f: Formats;
  readonly group: RateGroup;
  readonly model: ModelRates;
  readonly axis: RateAxis;
  readonly view: RatesView;
}) {
  const { f, group, model, axis, view } = props;
  const { engineModel, meterUnit } = model;
  const figure = (perThousand: number) => f.rateFigure(perThousand, levelUnitOf(view.measure), meterUnit);
  const isWhole = group.depot === undefined;
  const q = group.quantiles;
  return (
    <tr data-whole={isWhole}>
      <th scope="row">
        {isWhole ? (
          <AppLink href={compareAddress({ model: engineModel, meterUnit, measure: view.measure })}>
            {model.modelName}
          </AppLink>
        ) : (
          (group.depot ?? "no depot recorded")
        )}
      </th>
      <td className="number">{f.number(group.engines)}</td>
      {q === null ? (
        <td colSpan={columns.length} className="second rates-few">
          under five: each by itself
        </td>
      ) : (
        [q.p10, q.p25, q.p50, q.p75, q.p90].map((value, i) => (
          <td key={columns[i]} className="number">
            {figure(value)}
          </td>
        ))
      )}
      <td className="rates-axis">
        <RateStrip group={group} axis={axis} />
        {q === null && <span className="visually-hidden">{group.rates.map(figure).join(", ")}</span>}
      </td>
    </tr>
  );
}

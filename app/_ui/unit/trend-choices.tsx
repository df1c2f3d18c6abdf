import type { MeasureChart, UnitReport } from "@/lib/schema/report.ts";
import { type Choice, choiceHref, drawableCharts } from "./choice.ts";
import { ChoiceLink } from "./choice-link.client.tsx";
import { measureTitles } from "./unit-words.ts";

const valueNames = { referred: "Referred", raw: "Raw" } as const;

/** Which test, which cylinder, and whether as entered or made comparable. */
export function TrendChoices(props: {
  readonly report: UnitReport;
  readonly chart: MeasureChart;
  readonly choice: Choice;
  /** Somewhere a raw value differs from the referred one. */
  readonly offersRaw: boolean;
}) {
  const { report, chart, choice } = props;
  const { unit } = report.assessment;
  const charts = drawableCharts(report);
  return (
    <div className="unit-choices no-print">
      {charts.length > 1 && (
        <nav className="segments" aria-label="Test shown">
          {charts.map(({ measure }) => (
            <ChoiceLink
              key={measure}
              href={choiceHref(unit, { ...choice, measure })}
              chosen={measure === choice.measure}
            >
              {measureTitles[measure]}
            </ChoiceLink>
          ))}
        </nav>
      )}
      {props.offersRaw && (
        <nav className="segments" aria-label="Values shown">
          {(["referred", "raw"] as const).map((values) => (
            <ChoiceLink key={values} href={choiceHref(unit, { ...choice, values })} chosen={values === choice.values}>
              {valueNames[values]}
            </ChoiceLink>
          ))}
        </nav>
      )}
      {chart.cylinders.length > 1 && (
        <nav className="segments unit-numbers" aria-label="Cylinder shown">
          {chart.cylinders.map(({ cylinder }) => (
            <ChoiceLink
              key={cylinder}
              href={choiceHref(unit, { ...choice, cylinder })}
              chosen={cylinder === choice.cylinder}
              label={`Cylinder ${cylinder}`}
            >
              {cylinder}
            </ChoiceLink>
          ))}
        </nav>
      )}
    </div>
  );
}

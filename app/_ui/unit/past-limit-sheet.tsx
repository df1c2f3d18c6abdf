import type { UnitReport } from "@/lib/schema/report.ts";
import { dayNumber, formatMonth, formatProbability } from "../formats.ts";
import { Sheet } from "../sheet.tsx";
import { PastLimitChart } from "./past-limit-chart.client.tsx";

/** Chance of being past a limit, by month: drawn, and as figures. */
export function PastLimitSheet({ report }: { readonly report: UnitReport }) {
  const months = report.pastLimit;
  const last = months.at(-1);
  return (
    <Sheet title="Chance of being past the limit" note="by month from today, if no repair is made">
      {last === undefined || months.length < 2 ? (
        <p>No forecast yet, so no chance to tell.</p>
      ) : (
        <>
          <PastLimitChart
            rows={months.map((m) => ({
              day: dayNumber(m.date),
              topEndPercent: m.topEnd * 100,
              bottomEndPercent: m.bottomEnd * 100,
            }))}
            ticks={halfYears(months.map((m) => m.date))}
            label={`Chance of being past a limit by ${formatMonth(last.date)}: top-end ${formatProbability(last.topEnd)}, bottom-end ${formatProbability(last.bottomEnd)}. Figures by month follow.`}
          />
          <details className="unit-figures">
            <summary>Figures by month</summary>
            <table className="data-table">
              <caption className="visually-hidden">Chance of being past a limit by month and class of repair</caption>
              <thead>
                <tr>
                  <th scope="col">By</th>
                  <th scope="col" className="number">
                    Top-end
                  </th>
                  <th scope="col" className="number">
                    Bottom-end
                  </th>
                </tr>
              </thead>
              <tbody>
                {months.map((m) => (
                  <tr key={m.date}>
                    <td>{formatMonth(m.date)}</td>
                    <td className="number">{formatProbability(m.topEnd)}</td>
                    <td className="number">{formatProbability(m.bottomEnd)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </details>
        </>
      )}
    </Sheet>
  );
}

/** First months of half years, or of years when there are many. */
function halfYears(dates: readonly string[]) {
  const halves = dates.filter((d) => ["01", "07"].includes(d.slice(5, 7)));
  const kept = halves.length > 5 ? halves.filter((d) => d.slice(5, 7) === "01") : halves;
  const seen = new Map(kept.map((d) => [d.slice(0, 7), d]));
  return [...seen.values()].map((d) => ({ day: dayNumber(d), label: formatMonth(d) }));
}

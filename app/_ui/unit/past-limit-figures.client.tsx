"use client";

import type { UnitReport } from "@/lib/schema/report.ts";
import { useFormats } from "../formats.client.tsx";

/** The twin of the chart of chances; a client component so that its months go to the browser once, as data. */
export function PastLimitFigures({ months }: { readonly months: UnitReport["pastLimit"] }) {
  const f = useFormats();
  return (
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
              <td>{f.month(m.date)}</td>
              <td className="number">{f.probability(m.topEnd)}</td>
              <td className="number">{f.probability(m.bottomEnd)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

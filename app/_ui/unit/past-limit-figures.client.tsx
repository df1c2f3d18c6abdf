"use client";

import type { UnitReport } from "@/lib/schema/report.ts";
import { useFormats } from "../formats.client.tsx";

/** So many months are told one by one; the later ones by quarter. */
const monthly = 24;

/** The twin of the chart of chances; a client component so that its months go to the browser once, as data. */
export function PastLimitFigures({ months }: { readonly months: UnitReport["pastLimit"] }) {
  const f = useFormats();
  const shown = months.filter((_, i) => i <= monthly || (i - monthly) % 3 === 0 || i === months.length - 1);
  return (
    <details className="unit-figures">
      <summary>{shown.length < months.length ? "Figures by month, later by quarter" : "Figures by month"}</summary>
      <table className="data-table">
        <caption className="visually-hidden">Chance of being past a limit by date and class of repair</caption>
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
          {shown.map((m) => (
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

import type { Formats } from "../../../lib/viewing/formats.ts";
import { wholeMoney } from "./whole-money.ts";
import type { YearTold } from "./year-told.ts";

/** The year in six figures; what was spent is in all of them. */
export function SixFigures({ f, told }: { readonly f: Formats; readonly told: YearTold }) {
  const { whole, spent, asOf, currency } = told;
  const figures = [
    [`Spent to ${f.shortDate(asOf, asOf)}`, spent.amount],
    ["P50, as likely over as under", whole.p50],
    ["P80", whole.p80],
    ["P95", whole.p95],
    ["Contingency, P80 − P50", whole.p80 - whole.p50],
    ["Expected", whole.expected],
  ] as const;
  return (
    <dl className="six-figures">
      {figures.map(([name, amount]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{wholeMoney(f, amount, currency)}</dd>
        </div>
      ))}
    </dl>
  );
}

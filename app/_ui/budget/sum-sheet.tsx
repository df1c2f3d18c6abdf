import { addMonths } from "../../../lib/calendar.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { Sheet } from "../sheet.tsx";
import { AxisWords, Grid } from "./bars-sheet.tsx";
import { moneyAxis } from "./money-axis.ts";
import { wholeMoney } from "./whole-money.ts";
import { runningSum, type SumPoint, type YearTold } from "./year-told.ts";

/** How the year's money adds up, beside how the frozen budget had it. */
export function SumSheet(props: { readonly f: Formats; readonly told: YearTold; readonly frozen: YearTold | null }) {
  const { f, told } = props;
  return (
    <Sheet title="Adding up over the year" note={`fiscal year from ${f.date(told.fiscal.from)}`}>
      <RunningSumPlot {...props} />
      <ul className="budget-key">
        <li>
          <span className="budget-line" data-of="spent" /> spent
        </li>
        <li>
          <span className="budget-line" data-of="p50" /> P50
        </li>
        <li>
          <span className="budget-mark" data-of="p80" /> up to P80
        </li>
        {props.frozen !== null && (
          <li>
            <span className="budget-line" data-of="frozen" /> frozen P50
          </li>
        )}
      </ul>
    </Sheet>
  );
}

function RunningSumPlot({
  f,
  told,
  frozen,
}: {
  readonly f: Formats;
  readonly told: YearTold;
  readonly frozen: YearTold | null;
}) {
  const { currency, whole, spent } = told;
  const sums = runningSum(told);
  const before = frozen === null ? [] : runningSum(frozen).drawn;
  const most = Math.max(whole.p80, ...before.map(({ p50 }) => p50));
  const axis = moneyAxis(f, most, currency);
  const at = (month: number, amount: number) => `${(100 * month) / 12},${100 - axis.at(amount)}`;
  const line = (points: readonly SumPoint[]) => points.map(({ month, p50 }) => at(month, p50)).join(" ");
  const band = [
    ...sums.drawn.map(({ month, p80 }) => at(month, p80)),
    ...sums.drawn.toReversed().map(({ month, p50 }) => at(month, p50)),
  ].join(" ");
  const end = (amount: number, words: string, of: string) => (
    <span className="budget-end" data-of={of} style={{ bottom: `${axis.at(amount)}%` }}>
      {words} {wholeMoney(f, amount, currency)}
    </span>
  );
  const frozenEnd = before.at(-1)?.p50;
  const isClear = (amount: number, others: readonly number[]) =>
    others.every((other) => Math.abs(axis.at(amount) - axis.at(other)) > 7);
  return (
    <figure
      className="budget-plot"
      data-ends="true"
      role="img"
      aria-label={`By the year’s end as likely more as less than ${wholeMoney(f, whole.p50, currency)}, P80 ${wholeMoney(f, whole.p80, currency)}; spent so far ${wholeMoney(f, spent.amount, currency)}.`}
    >
      <AxisWords axis={axis} />
      <svg className="budget-drawing" aria-hidden="true">
        <Grid axis={axis} />
        <svg viewBox="0 0 100 100" preserveAspectRatio="none" width="100%" height="100%" aria-hidden="true">
          <polygon className="budget-band" points={band} />
          {before.length > 0 && <polyline className="budget-sum" data-of="frozen" points={line(before)} />}
          <polyline className="budget-sum" data-of="p50" points={line(sums.drawn)} />
          <polyline
            className="budget-sum"
            data-of="spent"
            points={sums.spent.map(({ month, amount }) => at(month, amount)).join(" ")}
          />
        </svg>
      </svg>
      <div className="budget-ends" aria-hidden="true">
        {end(whole.p80, "P80", "p80")}
        {isClear(whole.p50, [whole.p80]) && end(whole.p50, "P50", "p50")}
        {frozenEnd !== undefined && isClear(frozenEnd, [whole.p80, whole.p50]) && end(frozenEnd, "frozen", "frozen")}
      </div>
      <div className="budget-feet" aria-hidden="true">
        {Array.from({ length: 12 }, (_, month) => {
          const from = addMonths(told.fiscal.from, month);
          return <span key={from}>{f.month(from).match(/\p{L}+/u)?.[0] ?? from.slice(5, 7)}</span>;
        })}
      </div>
    </figure>
  );
}

import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { type BudgetView, budgetAddress, budgetFileAddress } from "./address.ts";
import { type MoneyAxis, moneyAxis } from "./money-axis.ts";
import { isRare, rareMark, rareNote } from "./rare-money.ts";
import { type Bar, spanKinds } from "./year-told.ts";

const kindNames = { month: "Month", quarter: "Quarter", year: "Year" } as const;
const titles = { month: "Each month", quarter: "Each quarter", year: "Each fiscal year" } as const;

/** What was spent and what may come, by month, quarter or year. */
export function BarsSheet(props: {
  readonly f: Formats;
  readonly bars: readonly Bar[];
  readonly view: BudgetView;
  readonly currency: string;
}) {
  const { f, bars, view, currency } = props;
  const { span } = view;
  return (
    <Sheet
      title={titles[span]}
      note={`each ${span} simulated by itself: their P80 do not add up`}
      controls={
        <nav className="segments no-print" aria-label="What a bar stands for">
          {spanKinds.map((kind) => (
            <AppLink
              key={kind}
              href={budgetAddress({ ...view, span: kind })}
              variant="bare"
              scroll={false}
              {...(kind === span ? { "aria-current": "page" as const } : {})}
            >
              {kindNames[kind]}
            </AppLink>
          ))}
        </nav>
      }
    >
      <Bars f={f} bars={bars} currency={currency} />
      <ul className="budget-key">
        <li>
          <span className="budget-mark" data-of="spent" /> spent
        </li>
        <li>
          <span className="budget-mark" data-of="p50" /> up to P50
        </li>
        <li>
          <span className="budget-mark" data-of="p80" /> P50 to P80
        </li>
        <li>
          <span className="budget-mark" data-of="p95" /> P95
        </li>
      </ul>
      <details className="budget-twin no-print">
        <summary>The same in figures</summary>
        <ScrollBox name={`${titles[span]}, in figures`}>
          <BarsTable f={f} bars={bars} currency={currency} />
        </ScrollBox>
        {bars.some((bar) => isRare(toCome(bar))) && <p className="sheet-note">{rareNote}</p>}
        <CsvLink href={budgetFileAddress("spans")} of="months, quarters and fiscal years" />
      </details>
    </Sheet>
  );
}

/** The drawing alone; its twin in figures stands beside it. */
export function Bars(props: { readonly f: Formats; readonly bars: readonly Bar[]; readonly currency: string }) {
  const { f, bars, currency } = props;
  const axis = moneyAxis(f, Math.max(...bars.map(({ whole }) => whole.p95)), currency);
  const width = 100 / Math.max(1, bars.length);
  return (
    <figure className="budget-plot" role="img" aria-label={barsWords(f, bars, currency)}>
      <AxisWords axis={axis} />
      <svg className="budget-drawing" aria-hidden="true">
        <Grid axis={axis} />
        {bars.map((bar, place) => (
          <OneBar key={bar.name} bar={bar} axis={axis} left={place * width + width / 2} width={width * 0.52} />
        ))}
      </svg>
      <div className="budget-feet" aria-hidden="true">
        {bars.map(({ name, from }) => (
          <span key={name}>
            {footWords(f, name, from).map((line) => (
              <span key={line}>{line}</span>
            ))}
          </span>
        ))}
      </div>
    </figure>
  );
}

/** "Jul"; "Q1" over its year; a year by its name. */
function footWords(f: Formats, name: string, from: string): readonly string[] {
  if (/^\d{4}-\d{2}$/.test(name)) return [f.month(from).match(/\p{L}+/u)?.[0] ?? name.slice(5)];
  const quarter = /^\d\d(.*) (Q\d)$/.exec(name);
  return quarter === null ? [name] : [quarter[2] ?? "", `’${quarter[1]}`];
}

const barsWords = (f: Formats, bars: readonly Bar[], currency: string): string => {
  const most = bars.toSorted((a, b) => b.whole.p50 - a.whole.p50)[0];
  if (most === undefined) return "No money is foreseen.";
  return `${bars.length} bars of money; the highest likely amount is ${f.money(most.whole.p50, currency)} in ${most.name}.`;
};

export function AxisWords({ axis }: { readonly axis: MoneyAxis }) {
  return (
    <div className="budget-axis" aria-hidden="true">
      {axis.ticks.map(({ amount, words }) => (
        <span key={amount} style={{ bottom: `${axis.at(amount)}%` }}>
          {words}
        </span>
      ))}
    </div>
  );
}

export function Grid({ axis }: { readonly axis: MoneyAxis }) {
  return axis.ticks.map(({ amount }) => {
    const y = `${100 - axis.at(amount)}%`;
    return (
      <line key={amount} className={amount === 0 ? "budget-foot" : "budget-grid"} x1="0" x2="100%" y1={y} y2={y} />
    );
  });
}

function OneBar(props: { readonly bar: Bar; readonly axis: MoneyAxis; readonly left: number; readonly width: number }) {
  const { bar, axis, left, width } = props;
  const x = left - width / 2;
  const { spent, whole } = bar;
  const part = (of: string, from: number, to: number) =>
    to <= from ? null : (
      <rect
        className={`budget-bar-${of}`}
        x={`${x}%`}
        width={`${width}%`}
        y={`${100 - axis.at(to)}%`}
        height={`${axis.at(to) - axis.at(from)}%`}
      />
    );
  const top = `${100 - axis.at(whole.p95)}%`;
  return (
    <g>
      {part("spent", 0, spent)}
      {part("p50", spent, whole.p50)}
      {part("p80", whole.p50, whole.p80)}
      {whole.p95 > spent && (
        <>
          <line
            className="budget-whisker"
            x1={`${left}%`}
            x2={`${left}%`}
            y1={`${100 - axis.at(whole.p80)}%`}
            y2={top}
          />
          <line className="budget-whisker" x1={`${left - width / 4}%`} x2={`${left + width / 4}%`} y1={top} y2={top} />
        </>
      )}
    </g>
  );
}

/** What of a bar is not spent yet. */
const toCome = ({ spent, whole }: Bar) => ({ expected: whole.expected - spent, p80: whole.p80 - spent });

function BarsTable(props: { readonly f: Formats; readonly bars: readonly Bar[]; readonly currency: string }) {
  const { f, bars, currency } = props;
  return (
    <table className="data-table budget-table">
      <thead>
        <tr>
          <th scope="col">Span</th>
          {["Spent", "Expected", "P50", "P80", "P95"].map((head) => (
            <th key={head} scope="col" className="number">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {bars.map((bar) => {
          const { name, from, spent, whole } = bar;
          return (
            <tr key={name}>
              <th scope="row">{/^\d{4}-\d{2}$/.test(name) ? f.month(from) : name}</th>
              <td className="number">{f.money(spent, currency)}</td>
              <td className="number">{f.money(whole.expected, currency)}</td>
              <td className="number">{f.money(whole.p50, currency)}</td>
              <td className="number">
                {f.money(whole.p80, currency)}
                {isRare(toCome(bar)) && (
                  <>
                    <br />
                    <span className="second small">{rareMark}</span>
                  </>
                )}
              </td>
              <td className="number">{f.money(whole.p95, currency)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

import type { BudgetBridge } from "../../../lib/schema/bridge.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import type { Bridged } from "../../_jobs/bridge-of.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { FollowJob } from "../import/follow-job.client.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { type BudgetView, budgetAddress, budgetFileAddress } from "./address.ts";
import { causeNames, signedMoney, stepWords } from "./budget-words.ts";

/** A frozen budget by its name and day. */
export interface FrozenName {
  readonly id: number;
  readonly name: string;
  readonly asOf: string;
}

/** Why the year's money moved since a frozen budget. */
export function BridgeSheet(props: {
  readonly f: Formats;
  readonly view: BudgetView;
  readonly currency: string;
  readonly frozen: FrozenName;
  /** All that may be chosen. */
  readonly others: readonly FrozenName[];
  readonly told: { readonly bridge: Bridged } | { readonly job: string };
  /** Why there is none; null: there is, or it is being drawn. */
  readonly whyNone: string | null;
}) {
  const { f, view, currency, frozen, others, told, whyNone } = props;
  return (
    <Sheet
      title={`Why it moved since ${f.date(frozen.asOf)}`}
      note={`from P50 of the frozen budget “${frozen.name}” to today’s; totals are ticks, steps are bars`}
      controls={
        others.length > 1 && (
          <nav className="segments no-print" aria-label="Frozen budget looked back to">
            {others.slice(0, 4).map(({ id, name }) => (
              <AppLink
                key={id}
                href={budgetAddress({ ...view, frozen: id })}
                variant="bare"
                scroll={false}
                {...(id === frozen.id ? { "aria-current": "page" as const } : {})}
              >
                {name}
              </AppLink>
            ))}
          </nav>
        )
      }
    >
      {"job" in told ? (
        <FollowJob job={told.job} />
      ) : typeof told.bridge === "string" ? (
        <p>{whyNone}</p>
      ) : (
        <>
          <Bridge f={f} bridge={told.bridge} currency={currency} />
          <p className="sheet-note">
            One cause is put in after the other, in this order, and after each the year is drawn with the same random
            numbers. All that changed of a unit’s forecast is put down to the first of its causes.
          </p>
          <BridgeTable f={f} bridge={told.bridge} currency={currency} />
          <CsvLink href={budgetFileAddress("bridge", view)} of="the steps of the bridge, to the unit" />
        </>
      )}
    </Sheet>
  );
}

/** The steps that moved anything, each a bar from where the one before it ended. */
export function Bridge(props: { readonly f: Formats; readonly bridge: BudgetBridge; readonly currency: string }) {
  const { f, bridge, currency } = props;
  const steps = bridge.steps.filter(({ p50, expected }) => p50 !== 0 || expected !== 0);
  let sum = bridge.from.p50;
  const rows = steps.map((step) => {
    const from = sum;
    sum += step.p50;
    return { step, from, to: sum };
  });
  const amounts = [bridge.from.p50, bridge.to.p50, ...rows.map(({ to }) => to)];
  const [low, high] = [Math.min(...amounts), Math.max(...amounts)];
  const at = (amount: number) => 2 + (96 * (amount - low)) / Math.max(1, high - low);
  const total = (words: string, amount: number) => (
    <li className="bridge-row" data-total="true">
      <span className="bridge-name">{words}</span>
      <svg className="bridge-track" aria-hidden="true">
        <line x1={`${at(amount)}%`} x2={`${at(amount)}%`} y1="0" y2="100%" />
      </svg>
      <strong>{f.money(amount, currency)}</strong>
    </li>
  );
  return (
    <ol className="bridge" aria-label="The bridge, P50">
      {total(`Frozen, ${f.date(bridge.from.asOf)}`, bridge.from.p50)}
      {rows.map(({ step, from, to }) => (
        <li key={step.cause} className="bridge-row" data-cause={step.cause}>
          <span className="bridge-name">{causeNames[step.cause]}</span>
          <svg className="bridge-track" aria-hidden="true">
            <rect
              data-adds={to >= from}
              x={`${at(Math.min(from, to))}%`}
              width={`${Math.max(0.4, Math.abs(at(to) - at(from)))}%`}
              y="15%"
              height="70%"
            />
          </svg>
          <span>
            <strong>{signedMoney(f, step.p50, currency)}</strong>{" "}
            <span className="second small">{stepWords(f, step)}</span>
          </span>
        </li>
      ))}
      {total("Today", bridge.to.p50)}
    </ol>
  );
}

function BridgeTable(props: { readonly f: Formats; readonly bridge: BudgetBridge; readonly currency: string }) {
  const { f, bridge, currency } = props;
  const { from, to, steps } = bridge;
  const money = (amount: number) => f.money(amount, currency);
  const signed = (amount: number) => signedMoney(f, amount, currency);
  const names = steps.flatMap(({ units }) => units.map(({ unit }) => unit));
  const known = f.knowing(names);
  return (
    <details className="budget-twin no-print">
      <summary>The same in figures, to the unit</summary>
      <ScrollBox name="The bridge in figures">
        <table className="data-table budget-table">
          <thead>
            <tr>
              <th scope="col">Step</th>
              <th scope="col" className="number">
                Expected
              </th>
              <th scope="col" className="number">
                P50
              </th>
              <th scope="col" className="number">
                P80
              </th>
              <th scope="col">Why</th>
            </tr>
          </thead>
          <tbody>
            <tr data-total="true">
              <th scope="row">Frozen, spent by then with it</th>
              <td className="number">{money(from.expected)}</td>
              <td className="number">{money(from.p50)}</td>
              <td className="number">{money(from.p80)}</td>
              <td />
            </tr>
            {steps.map((step) => (
              <StepRows key={step.cause} f={known} step={step} signed={signed} />
            ))}
            <tr data-total="true">
              <th scope="row">Today, spent so far with it</th>
              <td className="number">{money(to.expected)}</td>
              <td className="number">{money(to.p50)}</td>
              <td className="number">{money(to.p80)}</td>
              <td />
            </tr>
          </tbody>
        </table>
      </ScrollBox>
      <p className="sheet-note">Expected money adds up by unit; P50 and P80 are of the fleet as a whole.</p>
    </details>
  );
}

function StepRows(props: {
  readonly f: Formats;
  readonly step: BudgetBridge["steps"][number];
  readonly signed: (amount: number) => string;
}) {
  const { f, step, signed } = props;
  return (
    <>
      <tr>
        <th scope="row">{causeNames[step.cause]}</th>
        <td className="number">{signed(step.expected)}</td>
        <td className="number">{signed(step.p50)}</td>
        <td className="number">{signed(step.p80)}</td>
        <td>{f.words(step.because.join(", "))}</td>
      </tr>
      {step.units.map(({ unit, expected, because }) => (
        <tr key={unit} data-unit="true">
          <th scope="row">{unit}</th>
          <td className="number">{signed(expected)}</td>
          <td />
          <td />
          <td>{f.words(because.join(", "))}</td>
        </tr>
      ))}
      {step.rest !== 0 && (
        <tr data-unit="true">
          <th scope="row">of no single unit</th>
          <td className="number">{signed(step.rest)}</td>
          <td />
          <td />
          <td />
        </tr>
      )}
    </>
  );
}

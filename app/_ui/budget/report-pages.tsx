import type { ReactNode } from "react";
import { addDays } from "../../../lib/calendar.ts";
import type { KeptBooking } from "../../../lib/schema/kept-plan.ts";
import type { TrackRecord } from "../../../lib/schema/track-record.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { heldFigure, recordFinding } from "../record/record-words.ts";
import { Bars } from "./bars-sheet.tsx";
import { scopeNames } from "./budget-words.ts";
import { isRare, rareMark } from "./rare-money.ts";
import { SixFigures } from "./six-figures.tsx";
import { spentWords } from "./spent-sheet.tsx";
import { wholeMoney } from "./whole-money.ts";
import type { Bar, YearTold } from "./year-told.ts";

/** Rows that a printed page has room for. */
const mostBookings = 14;
const mostUnits = 10;
const mostDepots = 8;

/** The first page: what to hold, by month, why it moved, where it goes. */
export function MoneyPage(props: {
  readonly f: Formats;
  readonly finding: string;
  readonly second: string;
  readonly told: YearTold;
  readonly bars: readonly Bar[];
  /** The bridge, or why there is none. */
  readonly moved: ReactNode;
  /** What is not in it, or is not up to date. */
  readonly cautions: ReactNode;
  readonly foot: string;
}) {
  const { f, finding, second, told, bars, moved, cautions, foot } = props;
  const { currency, drawn } = told;
  const money = (amount: number) => wholeMoney(f, amount, currency);
  const depots = drawn.byDepot.toSorted((a, b) => b.expected - a.expected);
  const others = depots.slice(mostDepots);
  return (
    <section className="report-page" aria-label="The money">
      <h1 className="finding">{finding}</h1>
      <p className="second">{second}</p>
      {cautions}
      <SixFigures f={f} told={told} />
      <p className="second small">Spent: {spentWords(f, told)}</p>
      <h2>Each month</h2>
      <Bars f={f} bars={bars} currency={currency} />
      <p className="second small">
        Dark: spent. Green: up to P50. Pale: P50 to P80. Line: P95. Each month by itself; P80 do not add up.
      </p>
      <h2>Why it moved</h2>
      {moved}
      <div className="report-columns">
        <div>
          <h2>Where it goes</h2>
          <table className="data-table budget-table">
            <thead>
              <tr>
                <th scope="col">Depot</th>
                <th scope="col" className="number">
                  Expected
                </th>
                <th scope="col" className="number">
                  P80
                </th>
              </tr>
            </thead>
            <tbody>
              {depots.slice(0, mostDepots).map(({ depot, expected, p80 }) => (
                <tr key={depot}>
                  <th scope="row">{depot}</th>
                  <td className="number">{money(expected)}</td>
                  <td className="number">
                    {money(p80)}
                    {isRare({ expected, p80 }) && <span className="second small"> {rareMark}</span>}
                  </td>
                </tr>
              ))}
              {others.length > 0 && (
                <tr>
                  <th scope="row">{f.number(others.length)} others</th>
                  <td className="number">{money(others.reduce((sum, { expected }) => sum + expected, 0))}</td>
                  <td className="number">–</td>
                </tr>
              )}
              {(drawn.untested.expected > 0 || drawn.untested.p80 > 0) && (
                <tr>
                  <th scope="row">Too few tests, among the above</th>
                  <td className="number">{money(drawn.untested.expected)}</td>
                  <td className="number">
                    {money(drawn.untested.p80)}
                    {isRare(drawn.untested) && <span className="second small"> {rareMark}</span>}
                  </td>
                </tr>
              )}
              <tr data-total="true">
                <th scope="row">Fleet, to come</th>
                <td className="number">{money(drawn.expected)}</td>
                <td className="number">{money(drawn.p80)}</td>
              </tr>
            </tbody>
          </table>
        </div>
        <div>
          <h2>What it is spent on</h2>
          <table className="data-table budget-table">
            <thead>
              <tr>
                <th scope="col">Expected, to come</th>
                <th scope="col" className="number">
                  Planned
                </th>
                <th scope="col" className="number">
                  Unplanned
                </th>
              </tr>
            </thead>
            <tbody>
              {(["labour", "parts", "machining", "damage", "downtime"] as const).map((of) => (
                <tr key={of}>
                  <th scope="row">{of}</th>
                  <td className="number">{money(drawn.planned[of])}</td>
                  <td className="number">{money(drawn.unplanned[of])}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </div>
      <p className="second small report-foot">{foot}</p>
    </section>
  );
}

/** The second page: the plan, the units that matter most, and how good past forecasts were. */
export function PlanPage(props: {
  readonly f: Formats;
  readonly told: YearTold;
  readonly bookings: readonly KeptBooking[];
  readonly record: TrackRecord | null;
  /** By what the plan is older than the money; null: it is not. */
  readonly older: string | null;
  readonly foot: string;
}) {
  const { f, told, bookings, record, older, foot } = props;
  const { currency, drawn, fiscal } = told;
  const inYear = bookings.filter(({ start }) => start < fiscal.end);
  const shown = inYear.slice(0, mostBookings);
  const rest = inYear.length - shown.length;
  const units = drawn.units.slice(0, mostUnits);
  const next = (unit: string) => bookings.find((booking) => booking.unit === unit);
  return (
    <section className="report-page" aria-label="The plan and the units">
      <h2>The plan until the year’s end</h2>
      {older !== null && <p className="caution">{older}</p>}
      <p className="second">
        {inYear.length === 0
          ? "No repair is booked before the year ends."
          : `${f.number(inYear.length)} ${inYear.length === 1 ? "repair is" : "repairs are"} booked before the year ends${rest > 0 ? `; the next ${f.number(shown.length)} of them, ${f.number(rest)} more follow` : ""}.${pricesWords(f, bookings)}`}
      </p>
      {shown.length > 0 && (
        <table className="data-table budget-table">
          <thead>
            <tr>
              <th scope="col">Week from</th>
              <th scope="col">Unit</th>
              <th scope="col">Depot</th>
              <th scope="col">Repair</th>
              <th scope="col" className="number">
                Work
              </th>
              <th scope="col" className="number">
                Days off
              </th>
            </tr>
          </thead>
          <tbody>
            {shown.map(({ unit, depot, scope, start, cost, work }) => (
              <tr key={`${unit} ${start}`}>
                <td>{f.date(start)}</td>
                <th scope="row">{unit}</th>
                <td>{depot}</td>
                <td>{scopeNames[scope]}</td>
                <td className="number">{wholeMoney(f, Math.round(cost.work), currency)}</td>
                <td className="number">{f.number(work.daysOff)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <h2>The units that matter most</h2>
      <table className="data-table budget-table">
        <thead>
          <tr>
            <th scope="col">Unit</th>
            <th scope="col">Depot</th>
            <th scope="col">Engine model</th>
            <th scope="col">Booked</th>
            <th scope="col" className="number">
              Expected in the year
            </th>
            <th scope="col" className="number">
              of it after failures
            </th>
          </tr>
        </thead>
        <tbody>
          {units.map(({ unit, depot, engineModel, untested, expected, unplanned }) => {
            const booking = next(unit);
            return (
              <tr key={unit}>
                <th scope="row">{unit}</th>
                <td>{depot}</td>
                <td>{engineModel}</td>
                <td>
                  {booking === undefined
                    ? untested
                      ? "too few tests"
                      : "–"
                    : `${scopeNames[booking.scope]}, ${f.date(booking.start)}`}
                </td>
                <td className="number">{wholeMoney(f, expected, currency)}</td>
                <td className="number">{wholeMoney(f, unplanned, currency)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <h2>How good past forecasts were</h2>
      {record === null ? (
        <p>No track record has been made yet.</p>
      ) : (
        <>
          <p>{recordFinding(f, record)}</p>
          <p>{limitsWords(f, record)}</p>
        </>
      )}
      <p className="caution">
        A forecast is a range, not a promise: what the maker’s manual asks for, and whoever opens the engine, decide.
      </p>
      <p className="second small report-foot">{foot}</p>
    </section>
  );
}

/** How often limits were met within what was told of them. */
function limitsWords(f: Formats, { limits }: TrackRecord): string {
  const { ranges, met } = limits.overall.borecast;
  if (ranges === null || met === 0) return "No limit has been met yet by a cylinder that was forecast before.";
  const range = ranges["80"];
  const held = heldFigure(f, { share: range.share, held: range.held, of: range.held + range.missed });
  return `Limits were met within the range of 80 % in ${held} of the cases that are decided.`;
}

/** The day whose prices the plan's work stands at: its first Monday, whichever the week. */
function pricesWords(f: Formats, [first]: readonly KeptBooking[]): string {
  return first === undefined ? "" : ` Work at the prices of ${f.date(addDays(first.start, -7 * first.week))}.`;
}

import type { ReactNode } from "react";
import type { Scenario } from "../../../db/scenarios.ts";
import type {
  ScenarioChange,
  ScenarioLoss,
  ScenarioMove,
  ScenarioResult,
  ScenarioStay,
  ScenarioYear,
  ShutDepot,
} from "../../../lib/schema/scenario.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { firstNamed, listWords } from "../../../lib/wording.ts";
import type { Reckoning } from "../../_jobs/what-ifs.ts";
import { AppLink } from "../app-link.client.tsx";
import { ErrorNote } from "../error-note.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";
import { changeWords, scopeNames, signedMoney } from "./budget-words.ts";
import { WhatIfJob } from "./what-if-desk.client.tsx";
import { wholeMoney } from "./whole-money.ts";

/** One what-if beside the base. */
export function WhatIfTold(props: {
  readonly f: Formats;
  readonly scenario: Scenario;
  /** The base has been drawn anew since. */
  readonly isBehind: boolean;
  /** null: it is not being reckoned. */
  readonly reckoning: Reckoning | null;
  readonly when: (instant: string) => string;
  readonly children: ReactNode;
}) {
  const { f, scenario, isBehind, reckoning, when, children } = props;
  const { name, change, told, by, at } = scenario;
  const currency = told?.result.currency ?? "XXX";
  return (
    <article className="what-if">
      <div className="what-if-head">
        <div>
          <h3>{name}</h3>
          <p className="second">
            {changeWords(f, change, currency)}. {by}, {when(at)}
          </p>
        </div>
        {children}
      </div>
      {reckoning?.state === "running" && <WhatIfJob job={reckoning.job} />}
      {reckoning?.state === "failed" && (
        <ErrorNote
          happened={reckoning.problem}
          kept={
            told === null ? "The what-if stays on the list and can be reckoned again." : "What it came to before stays."
          }
        />
      )}
      {told === null ? (
        reckoning === null && (
          <p>Not reckoned yet: it is taken up once today’s budget is drawn and those before it are done.</p>
        )
      ) : (
        <>
          {(told.result.shut ?? []).map((shut) => (
            <p key={shut.depot} className="caution">
              {shutWords(f, shut, currency)}
            </p>
          ))}
          <p>{savesWords(f, told.result)}</p>
          {lossWords(f, told.result) !== "" && <p className="caution">{lossWords(f, told.result)}</p>}
          {told.result.replanned === undefined && (
            <p className="caution">
              Reckoned by an earlier version, which set it beside the plan as it was: reckon it again.
            </p>
          )}
          {told.result.replanned != null && <p className="second">{replannedWords(f, told.result)}</p>}
          {told.result.lastMonth != null && <p className="caution">{cutWords(f, told.result.lastMonth)}</p>}
          {isBehind && (
            <p className="caution">
              Reckoned beside the budget of {f.date(told.result.asOf)}, which has changed since.
            </p>
          )}
          <YearsTable f={f} result={told.result} name={name} />
          {staysWords(f, told.result.stays ?? []) !== "" && (
            <p className="second">{staysWords(f, told.result.stays ?? [])}</p>
          )}
          <Moves f={f} moves={told.result.moves} name={name} kind={change.kind} currency={currency} />
        </>
      )}
    </article>
  );
}

/** What comes of planning anew without the change, which is in neither; a plan was made for the what-if. */
export function replannedWords(f: Formats, { replanned, currency }: ScenarioResult): string {
  const { expected, moves } = replanned ?? { expected: 0, moves: 0 };
  const beside = "The what-if has a plan of its own and stands beside the base planned anew in the same way";
  if (moves === 0) return `${beside}, which moves no booking of it.`;
  const money =
    expected === 0
      ? "change no expected money"
      : `${expected < 0 ? "save" : "cost"} ${wholeMoney(f, Math.abs(expected), currency)}${expected < 0 ? "" : " more"}`;
  return `${beside}: planning anew alone would move ${f.number(moves)} ${moves === 1 ? "booking" : "bookings"} and ${money}, which is not counted here.`;
}

/** What a depot that is shut leaves undone, so that nobody takes it to be free. */
export function shutWords(f: Formats, { depot, units, base, scenario }: ShutDepot, currency: string): string {
  if (units.length === 0) return `${depot} is shut: no repair is expected of its units within the budget.`;
  const money = (amount: number) => wholeMoney(f, amount, currency);
  const whose = units.length === 1 ? "one unit" : `${f.number(units.length)} units`;
  return `${depot} is shut, so nothing can be booked there. The base expects ${money(base)} of repairs of ${whose} (${listWords(firstNamed(units))}); in the what-if they run on past their limits and are repaired after they fail, for ${money(scenario)} within the budget. Repairs that then fall after the budget’s end, what running on costs, and getting units to another depot are not in it: this is no saving.`;
}

const lackNames: Readonly<Record<Extract<ScenarioLoss, { why: "no-room" }>["lacks"][number], string>> = {
  "bay-days": "bay days",
  hours: "hours",
  "builder-hours": "hours of bottom-end work",
  unit: "a week without its other repair",
  "out-together": "units that may be out together",
  spares: "spare engines",
};

/** Which repairs lose their booking, and why; empty: none does. */
export function lossWords(f: Formats, { moves, currency }: ScenarioResult): string {
  const lost = moves.flatMap(({ unit, loss }) => (loss === undefined ? [] : [{ unit, loss }]));
  if (lost.length === 0) return "";
  const told = firstNamed(lost.map(({ unit, loss }) => `${unit}, as ${whyLost(f, loss, currency)}`)).join("; ");
  return `${lost.length === 1 ? "One repair loses its" : `${f.number(lost.length)} repairs lose their`} booking: ${told}.`;
}

/** Why a repair is not booked any more, as a clause. */
function whyLost(f: Formats, loss: ScenarioLoss, currency: string): string {
  if (loss.why === "shut") return `${loss.depot} has no open day`;
  if (loss.why === "waits") return "waiting until it is due costs less than any week that is left for it";
  const lacks = loss.lacks.length === 0 ? "room" : `enough ${listWords(loss.lacks.map((kind) => lackNames[kind]))}`;
  return `${loss.depot} has not ${lacks}, which costs ${wholeMoney(f, loss.extra, currency)}`;
}

/** Which repairs stay where they are, by name; empty: none. */
export function staysWords(f: Formats, stays: readonly ScenarioStay[]): string {
  const named = (why: ScenarioStay["why"]) =>
    listWords(
      firstNamed(
        stays
          .filter((one) => one.why === why)
          .map(({ unit, scope, start }) => `${unit} (${scopeNames[scope]}, ${f.date(start)})`),
      ),
    );
  const [pinned, past] = [named("pinned"), named("past-limit")];
  return [
    ...(past === "" ? [] : [`Stays as booked because its limit is met already: ${past}.`]),
    ...(pinned === "" ? [] : [`Stays because it is pinned: ${pinned}.`]),
  ].join(" ");
}

/** That both are told for a part of the budget. */
export const cutWords = (f: Formats, lastMonth: string): string =>
  `Base and what-if are both told until the end of ${f.month(`${lastMonth}-01`)} alone: the forecasts of one of the two reach no further. What comes after is in neither.`;

/** What it saves and risks over the whole budget, in a sentence. */
export function savesWords(f: Formats, { base, scenario, currency, bought, lastMonth }: ScenarioResult): string {
  const sum = (years: readonly ScenarioYear[], of: "expected" | "unplanned" | "downtime" | "failures") =>
    years.reduce((total, year) => total + year[of], 0);
  const by = (of: "expected" | "unplanned" | "downtime" | "failures") => sum(scenario, of) - sum(base, of);
  const money = by("expected");
  const saves =
    money === 0
      ? "It costs as much as the base"
      : `It ${money < 0 ? "saves" : "costs"} ${wholeMoney(f, Math.abs(money), currency)}${money < 0 ? "" : " more"}`;
  const failures = by("failures");
  const failing =
    Math.abs(failures) < 0.05
      ? "as many failures as before are expected"
      : `${f.number(Math.abs(failures), 1)} ${failures > 0 ? "more" : "fewer"} failures are expected`;
  const engines = bought > 0 ? `, engines for ${wholeMoney(f, bought, currency)} among it` : "";
  const over = lastMonth == null ? "all years of the budget" : "what both are told for";
  const [was, is] = [share(f, base), share(f, scenario)];
  const unplanned = was === is ? `the unplanned share stays at ${is}` : `the unplanned share goes from ${was} to ${is}`;
  return `${saves} over ${over}, expected${engines}; ${failing}, and ${unplanned}.`;
}

function share(f: Formats, years: readonly ScenarioYear[]): string {
  const whole = years.reduce((total, { expected }) => total + expected, 0);
  const unplanned = years.reduce((total, year) => total + year.unplanned, 0);
  return whole === 0 ? "none" : f.percent((100 * unplanned) / whole);
}

const amounts = ["expected", "p50", "p80", "unplanned", "downtime"] as const;
const heads = { expected: "Expected", p50: "P50", p80: "P80", unplanned: "Unplanned", downtime: "Downtime" } as const;

function YearsTable({
  f,
  result,
  name,
}: {
  readonly f: Formats;
  readonly result: ScenarioResult;
  readonly name: string;
}) {
  const { base, scenario, currency } = result;
  return (
    <ScrollBox name={`“${name}” beside the base`}>
      <table className="data-table budget-table">
        <thead>
          <tr>
            <th scope="col">Rest of fiscal year</th>
            {amounts.map((of) => (
              <th key={of} scope="col" className="number">
                {heads[of]}
              </th>
            ))}
            <th scope="col" className="number">
              Failures
            </th>
          </tr>
        </thead>
        <tbody>
          {scenario.map((year, place) => {
            const before = base[place] as ScenarioYear;
            return (
              <tr key={year.name}>
                <th scope="row">{year.name}</th>
                {amounts.map((of) => (
                  <td key={of} className="number">
                    {wholeMoney(f, year[of], currency)}
                    <br />
                    <span className="second small">{signedMoney(f, year[of] - before[of], currency)}</span>
                  </td>
                ))}
                <td className="number">
                  {f.number(year.failures, 1)}
                  <br />
                  <span className="second small">{signedCount(f, year.failures - before.failures)}</span>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </ScrollBox>
  );
}

/** "+0.4"; "0" for what one decimal does not show. */
const signedCount = (f: Formats, by: number): string =>
  Math.abs(by) < 0.05 ? "0" : `${by > 0 ? "+" : ""}${f.number(by, 1)}`;

function Moves({
  f,
  moves,
  name,
  kind,
  currency,
}: {
  readonly f: Formats;
  readonly moves: readonly ScenarioMove[];
  readonly name: string;
  readonly kind: ScenarioChange["kind"];
  readonly currency: string;
}) {
  if (moves.length === 0) return <p className="second">It moves no booking.</p>;
  const booked = (at: ScenarioMove["from"], none = "not booked") =>
    at === null ? none : `${scopeNames[at.scope]}, ${f.date(at.start)}`;
  const whenDue = kind === "run-to-limit" ? "once past its limit" : "not booked";
  return (
    <details className="budget-twin">
      <summary>
        {f.number(moves.length)} {moves.length === 1 ? "booking moves" : "bookings move"}
      </summary>
      <ScrollBox name={`What “${name}” moves`}>
        <table className="data-table budget-table">
          <thead>
            <tr>
              <th scope="col">Unit</th>
              <th scope="col">In the base</th>
              <th scope="col">In the what-if</th>
              <th scope="col" className="number">
                Past its limit by then
              </th>
              <th scope="col" className="number">
                in the base
              </th>
              {moves.some(({ loss }) => loss !== undefined) && <th scope="col">Why</th>}
            </tr>
          </thead>
          <tbody>
            {moves.map(({ unit, from, to, pastLimit, pastLimitNow, loss }) => (
              <tr key={`${unit} ${from?.start} ${to?.start}`}>
                <th scope="row">
                  <AppLink href={unitAddress(unit)}>{unit}</AppLink>
                </th>
                <td>{booked(from)}</td>
                <td>{booked(to, whenDue)}</td>
                <td className="number">{pastLimitNow == null ? "–" : f.probability(pastLimitNow)}</td>
                <td className="number">{pastLimit === null ? "–" : f.probability(pastLimit)}</td>
                {moves.some((move) => move.loss !== undefined) && (
                  <td>{loss === undefined ? "" : whyLost(f, loss, currency)}</td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </details>
  );
}

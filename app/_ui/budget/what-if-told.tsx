import type { ReactNode } from "react";
import type { Scenario } from "../../../db/scenarios.ts";
import type {
  ScenarioChange,
  ScenarioMove,
  ScenarioResult,
  ScenarioStay,
  ScenarioYear,
} from "../../../lib/schema/scenario.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";
import type { Reckoning } from "../../_jobs/what-ifs.ts";
import { AppLink } from "../app-link.client.tsx";
import { ErrorNote } from "../error-note.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";
import { changeWords, scopeNames, signedMoney } from "./budget-words.ts";
import { WhatIfJob } from "./what-if-desk.client.tsx";

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
          <p>{savesWords(f, told.result)}</p>
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
          <Moves f={f} moves={told.result.moves} name={name} kind={change.kind} />
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
      : `${expected < 0 ? "save" : "cost"} ${f.money(Math.abs(expected), currency)}${expected < 0 ? "" : " more"}`;
  return `${beside}: planning anew alone would move ${f.number(moves)} ${moves === 1 ? "booking" : "bookings"} and ${money}, which is not counted here.`;
}

/** Which repairs stay where they are, by name; empty: none. */
export function staysWords(f: Formats, stays: readonly ScenarioStay[]): string {
  const named = (why: ScenarioStay["why"]) =>
    listWords(
      stays
        .filter((one) => one.why === why)
        .map(({ unit, scope, start }) => `${unit} (${scopeNames[scope]}, ${f.date(start)})`),
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
      : `It ${money < 0 ? "saves" : "costs"} ${f.money(Math.abs(money), currency)}${money < 0 ? "" : " more"}`;
  const failures = by("failures");
  const failing =
    Math.abs(failures) < 0.05
      ? "as many failures as before are expected"
      : `${f.number(Math.abs(failures), 1)} ${failures > 0 ? "more" : "fewer"} failures are expected`;
  const engines = bought > 0 ? `, engines for ${f.money(bought, currency)} among it` : "";
  const over = lastMonth == null ? "all years of the budget" : "what both are told for";
  return `${saves} over ${over}, expected${engines}; ${failing}, and the unplanned share goes from ${share(f, base)} to ${share(f, scenario)}.`;
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
                    {f.money(year[of], currency)}
                    <br />
                    <span className="second small">{signedMoney(f, year[of] - before[of], currency)}</span>
                  </td>
                ))}
                <td className="number">
                  {f.number(year.failures, 1)}
                  <br />
                  <span className="second small">
                    {year.failures > before.failures ? "+" : ""}
                    {f.number(year.failures - before.failures, 1)}
                  </span>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </ScrollBox>
  );
}

function Moves({
  f,
  moves,
  name,
  kind,
}: {
  readonly f: Formats;
  readonly moves: readonly ScenarioMove[];
  readonly name: string;
  readonly kind: ScenarioChange["kind"];
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
                Past its limit by the base’s week
              </th>
            </tr>
          </thead>
          <tbody>
            {moves.map(({ unit, from, to, pastLimit }) => (
              <tr key={`${unit} ${from?.start} ${to?.start}`}>
                <th scope="row">
                  <AppLink href={unitAddress(unit)}>{unit}</AppLink>
                </th>
                <td>{booked(from)}</td>
                <td>{booked(to, whenDue)}</td>
                <td className="number">{pastLimit === null ? "–" : f.probability(pastLimit)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </details>
  );
}

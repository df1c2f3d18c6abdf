import type { Choice } from "../../../lib/plan/amended.ts";
import type { WaitWeek } from "../../../lib/plan/can-wait.ts";
import type { Move } from "../../../lib/plan/moves.ts";
import { planScopeWords } from "../../../lib/plan/scope-words.ts";
import { totalOf } from "../../../lib/plan/types.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptBooking, PlanScope, WeekCost } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { NameGate } from "../name-gate.tsx";
import { PlanPaperLinks } from "../plan-papers/links.tsx";
import { Sheet } from "../sheet.tsx";
import { unitAddress } from "../unit-address.ts";
import { type PlanView, planAddress } from "./address.ts";
import { ChoiceButtons } from "./choice-buttons.client.tsx";
import { costParts } from "./money-parts.ts";
import { classWords, overloadWords, shortScope, weekWords, wholeMoney, whyDear } from "./plan-words.ts";
import { WeekChoice } from "./week-choice.client.tsx";

export interface Chosen {
  readonly unit: string;
  readonly scope: PlanScope;
  /** null: it is not booked. */
  readonly booking: KeptBooking | null;
  /** What its week costs by what is known now, as its moves are weighed; as planned where it can't begin in that week any more. */
  readonly costNow: WeekCost | null;
  /** The weeks in which this repair can begin. */
  readonly weeks: readonly WaitWeek[];
  /** To the week, or in two, that the address asks for; null: it asks for none, or it is not possible. */
  readonly move: Move | null;
  readonly split: Move | null;
  /** What is to be chosen so that it stays where it is. */
  readonly pin: readonly Choice[] | null;
  readonly drop: Move | null;
  /** Ids of what people chose for the unit before. */
  readonly seen: readonly number[];
}

/** The chosen booking: what its week costs, and what another one would; its moves, each with its cost before it is taken. */
export function ChosenSheet(props: {
  readonly f: Formats;
  readonly chosen: Chosen;
  readonly view: PlanView;
  readonly currency: string;
  readonly firstMonday: IsoDate;
  /** Number of the plan in force. */
  readonly plan: number;
  /** Its day, and today's. */
  readonly planAsOf: IsoDate;
  readonly asOf: IsoDate;
  readonly viewer: string | null;
}) {
  const { f, chosen, view, currency, asOf } = props;
  const { unit, scope, booking, weeks, move } = chosen;
  const money = wholeMoney(f, currency);
  const start = booking?.start ?? null;
  const where = start === null ? "not booked" : `${weekWords(start, asOf)}, from ${f.date(start)}`;
  const wanted = view.split ? chosen.split : move;
  const [then, now] = [booking?.cost, chosen.costNow].map((cost) => (cost == null ? null : money(totalOf(cost))));
  const otherThen = then === now ? null : (then ?? null);
  return (
    <Sheet
      title={`${unit}: ${planScopeWords[scope]}, ${where}`}
      note={booking === null ? "Choose a week to see what it would cost." : aboutWords(f, booking)}
      className="plan-chosen"
      id="chosen"
    >
      <div className="plan-chosen-parts">
        <div>
          {wanted !== null && <MoveTable f={f} move={wanted} money={money} />}
          {wanted === null && chosen.costNow !== null && <CostTable cost={chosen.costNow} money={money} />}
          {otherThen !== null && (
            <p className="second small">
              Weighed by what is known now. As the plan was made, as of {f.date(props.planAsOf)}, its week was expected
              to cost {otherThen}.
            </p>
          )}
          {wanted === null && view.to !== null && (
            <p role="status">
              Not possible in {weekWords(view.to, asOf)}: the workshop is closed then, the parts can’t be there, or the
              unit is sold by then.
            </p>
          )}
          {wanted !== null && (
            <div role="status" className="plan-move-says">
              <p>{moveWords({ chosen, wanted, isSplit: view.split, asOf, money })}</p>
              {wanted.overloads.length > 0 && (
                <ul>
                  {wanted.overloads.map((over) => (
                    <li key={JSON.stringify(over.resource)}>{overloadWords(f, over, props.firstMonday, asOf)}</li>
                  ))}
                </ul>
              )}
            </div>
          )}
        </div>
        <div className="plan-does">
          <WeekChoice
            view={{ ...view, unit, scope, split: false }}
            at={view.to ?? start}
            weeks={weeks.map((week) => ({
              monday: week.start,
              says: `${weekWords(week.start, asOf)}, ${f.shortDate(week.start, asOf)}: ${week.extra < 0.5 ? "cheapest" : `+${money(week.extra)}`}${week.dearBy.length === 0 ? "" : `, ${whyDear(week)}`}`,
            }))}
          />
          <NameGate
            name={props.viewer}
            why="To pin, move or drop a booking, give your name: it is kept with the change."
          >
            <ChoiceButtons
              unit={unit}
              seen={{ plan: props.plan, choices: chosen.seen }}
              back={planAddress({ ...view, unit, scope, to: null, split: false })}
              take={wanted === null ? null : { chosen: wanted.chosen, label: takeLabel(chosen, view.split) }}
              pin={
                chosen.pin === null || booking?.isPinned === true || wanted !== null
                  ? null
                  : { chosen: chosen.pin, label: "Pin it here" }
              }
              release={chosen.seen.length === 0 ? null : { chosen: [], label: "Let the plan decide again" }}
              drop={
                chosen.drop === null || wanted !== null
                  ? null
                  : { chosen: chosen.drop.chosen, label: `Drop it (${signed(money, chosen.drop.extra)})` }
              }
            />
          </NameGate>
          <p className="plan-links">
            {wanted !== null && (
              <AppLink href={planAddress({ ...view, unit, scope, to: null, split: false })} scroll={false} replace>
                Leave it as it is
              </AppLink>
            )}
            {chosen.split !== null && !view.split && (
              <AppLink href={planAddress({ ...view, unit, scope, to: null, split: true })} scroll={false} replace>
                Split it in two ({signed(money, chosen.split.extra)})
              </AppLink>
            )}
            <AppLink href={unitAddress(unit)}>{unit}’s page</AppLink>
          </p>
          {booking !== null && <PlanPaperLinks unit={unit} />}
        </div>
      </div>
    </Sheet>
  );
}

const signed = (money: (amount: number) => string, extra: number): string =>
  Math.abs(extra) < 50 ? "costs the same" : extra > 0 ? `costs ${money(extra)} more` : `saves ${money(-extra)}`;

function takeLabel({ booking }: Chosen, isSplit: boolean): string {
  if (isSplit) return "Take the split";
  return booking === null ? "Book it there" : "Take the move";
}

function moveWords({
  chosen,
  wanted,
  isSplit,
  asOf,
  money,
}: {
  readonly chosen: Chosen;
  readonly wanted: Move;
  readonly isSplit: boolean;
  readonly asOf: IsoDate;
  readonly money: (amount: number) => string;
}): string {
  const early = wanted.after.early - wanted.before.early;
  const late = wanted.after.late - wanted.before.late;
  const pins = wanted.chosen.flatMap(({ scope, date }) =>
    // What was chosen for the other class before stays, and is not what moves.
    date === null || (!isSplit && scope !== chosen.scope) ? [] : [`${shortScope[scope]} in ${weekWords(date, asOf)}`],
  );
  const what = isSplit
    ? `In two, ${pins.join(" and ")}: this`
    : `${chosen.booking === null ? "Booked" : "Moved"}: ${pins.join(" and ")}. It`;
  const part = (amount: number, more: string, less: string) =>
    Math.abs(amount) < 50 ? null : amount > 0 ? `${money(amount)} more ${more}` : `${money(-amount)} less ${less}`;
  const parts = [part(early, "unused life", "unused life"), part(late, "risk", "risk")].filter(
    (words) => words !== null,
  );
  const room = wanted.overloads.length === 0 ? "There is room for it." : "";
  return `${what} ${signed(money, wanted.extra)} in all${parts.length === 0 ? "" : ` (${parts.join(", ")})`}. ${room}`.trim();
}

function aboutWords(f: Formats, { depot, sure, windows, work, isPinned }: KeptBooking): string {
  const likely = windows.flatMap(({ of, p10, p50, p90 }) =>
    p10 === null
      ? []
      : [
          `${classWords[of]} limit ${p50 === null ? `met from ${f.month(p10)} on, with no likely date within the forecast` : `likely met ${f.month(p50)}, 8 in 10 between ${f.month(p10)} and ${p90 === null ? "beyond the forecast" : f.month(p90)}`}`,
        ],
  );
  const class_ = sure === null ? "" : `, class ${f.probability(sure)} sure`;
  return `${depot}, ${f.number(work.labourHours)} h, ${f.days(work.bayDays)} in the bay, ${f.days(work.daysOff)} off the road${class_}${isPinned ? ", pinned" : ""}. ${likely.map((words) => words.charAt(0).toUpperCase() + words.slice(1)).join("; ")}${likely.length === 0 ? "" : "."}`;
}

function CostTable({ cost, money }: { readonly cost: WeekCost; readonly money: (amount: number) => string }) {
  return (
    <table className="data-table plan-cost">
      <caption className="second small">Expected cost of the week</caption>
      <tbody>
        {costParts.map(([part, title]) => (
          <tr key={part}>
            <th scope="row">{title}</th>
            <td className="number">{money(cost[part])}</td>
          </tr>
        ))}
        <tr className="total">
          <th scope="row">In all</th>
          <td className="number">{money(totalOf(cost))}</td>
        </tr>
      </tbody>
    </table>
  );
}

function MoveTable({
  f,
  move,
  money,
}: {
  readonly f: Formats;
  readonly move: Move;
  readonly money: (amount: number) => string;
}) {
  const { before, after } = move;
  const difference = (amount: number) =>
    Math.round(amount) === 0 ? f.number(0) : `${amount > 0 ? "+" : ""}${money(amount)}`;
  return (
    <table className="data-table plan-cost">
      <caption className="second small">Expected cost, as it stands and moved</caption>
      <thead>
        <tr>
          <th scope="col">
            <span className="visually-hidden">What for</span>
          </th>
          <th scope="col" className="number">
            Now
          </th>
          <th scope="col" className="number">
            Moved
          </th>
          <th scope="col" className="number">
            Extra
          </th>
        </tr>
      </thead>
      <tbody>
        {costParts.map(([part, title]) => (
          <tr key={part}>
            <th scope="row">{title}</th>
            <td className="number">{money(before[part])}</td>
            <td className="number">{money(after[part])}</td>
            <td className="number">{difference(after[part] - before[part])}</td>
          </tr>
        ))}
        <tr className="total">
          <th scope="row">In all</th>
          <td className="number">{money(totalOf(before))}</td>
          <td className="number">{money(totalOf(after))}</td>
          <td className="number">{difference(move.extra)}</td>
        </tr>
      </tbody>
    </table>
  );
}

import type { Choice } from "../../../lib/plan/amended.ts";
import type { WaitWeek } from "../../../lib/plan/can-wait.ts";
import type { Move } from "../../../lib/plan/moves.ts";
import { planScopeWords } from "../../../lib/plan/scope-words.ts";
import { shownCost } from "../../../lib/plan/shown-cost.ts";
import { totalOf } from "../../../lib/plan/types.ts";
import { minorUnits } from "../../../lib/plan/works-of.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptBooking, PlanScope, WeekCost } from "../../../lib/schema/kept-plan.ts";
import { depotWorkshopOf, type Workshop } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { NameGate } from "../name-gate.tsx";
import { PlanPaperLinks } from "../plan-papers/links.tsx";
import { Sheet } from "../sheet.tsx";
import { unitAddress } from "../unit-address.ts";
import { type PlanView, planAddress } from "./address.ts";
import { ChoiceButtons } from "./choice-buttons.client.tsx";
import { daysWords } from "./days-words.ts";
import { costParts } from "./money-parts.ts";
import { classWords, overloadWords, shortScope, weekWords, wholeMoney, whyDear } from "./plan-words.ts";
import { leastOf } from "./wait-words.ts";
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
  /** What not booking it within the plan costs; null: nothing that it cures may fall due. */
  readonly left: number | null;
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
  /** That the plan was made with. */
  readonly workshop: Pick<Workshop, "depots" | "anyDepot">;
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
  const least = leastOf(weeks, chosen.left);
  const weekExtra = (extra: number) => (extra < 0.5 ? "cheapest" : `+${money(extra)}`);
  const start = booking?.start ?? null;
  const where = start === null ? "not booked" : `${weekWords(start, asOf)}, from ${f.date(start)}`;
  const unitOfMoney = minorUnits(currency);
  const wanted = shownMove(view.split ? chosen.split : move, unitOfMoney);
  const prices = `at the prices of ${f.date(props.firstMonday)}, whichever the week`;
  const [then, now] = [booking?.cost, chosen.costNow].map((cost) => (cost == null ? null : money(totalOf(cost))));
  const otherThen = then === now ? null : (then ?? null);
  return (
    <Sheet
      title={`${unit}: ${planScopeWords[scope]}, ${where}`}
      note={booking === null ? "Choose a week to see what it would cost." : aboutWords(f, booking, props.workshop)}
      className="plan-chosen"
      id="chosen"
    >
      <div className="plan-chosen-parts">
        <div>
          {wanted !== null && <MoveTable f={f} move={wanted} money={money} prices={prices} />}
          {wanted === null && chosen.costNow !== null && (
            <CostTable cost={shownCost(chosen.costNow, unitOfMoney)} money={money} prices={prices} />
          )}
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
              says: `${weekWords(week.start, asOf)}, ${f.shortDate(week.start, asOf)}: ${weekExtra(totalOf(week.cost) - least)}${week.dearBy.length === 0 ? "" : `, ${whyDear(week)}`}`,
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
  money(Math.abs(extra)) === money(0)
    ? "costs the same"
    : extra > 0
      ? `costs ${money(extra)} more`
      : `saves ${money(-extra)}`;

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
  const part = (amount: number, of: string) =>
    Math.abs(amount) < 0.5 ? null : amount > 0 ? `${money(amount)} more ${of}` : `${money(-amount)} less ${of}`;
  const parts = [
    part(wanted.after.work - wanted.before.work, "for the repair"),
    part(wanted.after.downtime - wanted.before.downtime, "for days off the road"),
    part(early, "unused life"),
    part(late, "risk"),
  ].filter((words) => words !== null);
  const room = wanted.overloads.length === 0 ? "There is room for it." : "";
  return `${what} ${signed(money, wanted.extra)} in all${parts.length === 0 ? "" : ` (${parts.join(", ")})`}. ${room}`.trim();
}

function aboutWords(
  f: Formats,
  { depot, sure, windows, work, isPinned }: KeptBooking,
  workshop: Pick<Workshop, "depots" | "anyDepot">,
): string {
  const likely = windows.flatMap(({ of, p10, p50, p90 }) =>
    p10 === null
      ? []
      : [
          `${classWords[of]} limit ${p50 === null ? `met from ${f.month(p10)} on, with no likely date within the forecast` : `likely met ${f.month(p50)}, 8 in 10 between ${f.month(p10)} and ${p90 === null ? "beyond the forecast" : f.month(p90)}`}`,
        ],
  );
  const days = daysWords(f, work, depotWorkshopOf(workshop, depot));
  const class_ = sure === null ? "" : `, class ${f.probability(sure)} sure`;
  return `${depot}, ${f.number(work.labourHours)} h, ${f.days(work.bayDays)} in the bay, ${f.days(work.daysOff)} off the road${class_}${isPinned ? ", pinned" : ""}. ${days === "" ? "" : `${days} `}${likely.map((words) => words.charAt(0).toUpperCase() + words.slice(1)).join("; ")}${likely.length === 0 ? "" : "."}`;
}

/** A move in whole units of the currency: what is shown adds up, from part to whole and from now to moved. */
function shownMove(move: Move | null, unit: number): Move | null {
  if (move === null) return null;
  const [before, after] = [shownCost(move.before, unit), shownCost(move.after, unit)];
  return { ...move, before, after, extra: totalOf(after) - totalOf(before) };
}

function CostTable({
  cost,
  money,
  prices,
}: {
  readonly cost: WeekCost;
  readonly money: (amount: number) => string;
  /** The day whose prices the repair stands at, in words. */
  readonly prices: string;
}) {
  return (
    <table className="data-table plan-cost">
      <caption className="second small">Expected cost of the week, the repair {prices}</caption>
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
  prices,
}: {
  readonly f: Formats;
  readonly move: Move;
  readonly money: (amount: number) => string;
  readonly prices: string;
}) {
  const { before, after } = move;
  const difference = (amount: number) =>
    Math.round(amount) === 0 ? f.number(0) : `${amount > 0 ? "+" : ""}${money(amount)}`;
  return (
    <table className="data-table plan-cost">
      <caption className="second small">Expected cost, as it stands and moved, the repair {prices}</caption>
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

import { orderBy } from "../../../lib/plan/order-by.ts";
import { likelyWaiting, soldBefore } from "../../../lib/plan/waiting.ts";
import { mondayOf } from "../../../lib/plan/week-costs.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptBooking, KeptPlan, WhyLeftOut } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import type { DroppedRepair } from "../../_jobs/plan-dropped.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";
import { type PlanView, planAddress } from "./address.ts";
import { classWords, dropWords, lacksWords, leftOutWords, shortScope, weekWords, wholeMoney } from "./plan-words.ts";

const ordersShown = 8;

/** What is to be ordered next, for what is booked. */
export function OrderSheet({
  f,
  bookings,
  asOf,
}: {
  readonly f: Formats;
  readonly bookings: readonly KeptBooking[];
  readonly asOf: IsoDate;
}) {
  const orders = bookings
    .map((booking) => ({ booking, by: orderBy(booking) }))
    .toSorted((a, b) => (a.by < b.by ? -1 : 1));
  return (
    <Sheet title="Order by" note="the last day on which parts can be ordered that are to be there in time">
      {orders.length === 0 ? (
        <p className="second">Nothing is booked.</p>
      ) : (
        <ScrollBox name="Parts to order">
          <table className="data-table">
            <thead>
              <tr>
                <th scope="col">By</th>
                <th scope="col">For</th>
                <th scope="col">Repair</th>
                <th scope="col" className="number">
                  Lead, working days
                </th>
              </tr>
            </thead>
            <tbody>
              {orders.slice(0, ordersShown).map(({ booking, by }) => (
                <tr key={`${booking.unit} ${booking.scope}`}>
                  <td>
                    {f.shortDate(by, asOf)}
                    {by < asOf && <b> gone by</b>}
                  </td>
                  <td>
                    <AppLink href={planAddress({ unit: booking.unit, scope: booking.scope })}>{booking.unit}</AppLink>
                  </td>
                  <td>{shortScope[booking.scope]}</td>
                  <td className="number">{f.number(booking.work.leadDays)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
      )}
    </Sheet>
  );
}

/** What found no room, what waits for a test, and which units are not planned, with reasons. */
export function RestSheet({
  f,
  plan,
  view,
  asOf,
  dropped,
}: {
  readonly f: Formats;
  readonly plan: KeptPlan;
  readonly view: PlanView;
  readonly asOf: IsoDate;
  /** What people want not to be booked. */
  readonly dropped: readonly DroppedRepair[];
}) {
  const money = wholeMoney(f, plan.currency);
  const waiting = likelyWaiting(plan.waiting, dropped);
  const reasons = (Object.keys(leftOutWords) as WhyLeftOut[]).flatMap((why) => {
    const units = plan.leftOut.filter((one) => one.why === why).map(({ unit }) => unit);
    return units.length === 0 ? [] : [{ why, units }];
  });
  return (
    <Sheet title="Not booked" note="and what that costs or waits for">
      {plan.notFitted.length === 0 && waiting.length === 0 && dropped.length === 0 && reasons.length === 0 && (
        <p className="second">Every repair that may fall due is booked.</p>
      )}
      <ul className="plan-rest">
        {plan.notFitted.map(({ unit, scope, bestWeek, extra, lacks }) => {
          const best = mondayOf(plan.firstMonday, bestWeek);
          return (
            <li key={`${unit} ${scope}`}>
              <AppLink href={planAddress({ ...view, unit, scope, to: best })}>{unit}</AppLink> {shortScope[scope]}: no
              room. Best in {weekWords(best, asOf)}; waiting costs {money(extra)}.
              {lacksWords(f, lacks, { firstMonday: plan.firstMonday, asOf })}
            </li>
          );
        })}
        {dropped.map(({ unit, scope, by, cost }) => (
          <li key={`dropped ${unit} ${scope}`}>
            <AppLink href={planAddress({ ...view, unit, scope, to: null })}>{unit}</AppLink> {shortScope[scope]}:
            dropped by {by}.{cost !== null && ` ${dropWords(money, cost, asOf)}`} Choose it to see what each week would
            cost, or let the plan decide again.
          </li>
        ))}
        {waiting.map(({ unit, of, chance, sold }) => (
          <li key={`${unit} ${of}`}>
            <AppLink href={planAddress({ ...view, unit, scope: of === "topEnd" ? "top-end" : "bottom-end", to: null })}>
              {unit}
            </AppLink>{" "}
            {classWords[of]}: waits for its next test. {f.probability(chance)} likely to fall due{" "}
            {sold === undefined ? "within the plan" : `before it is sold in ${weekWords(sold.start, asOf)}`}, cheaper to
            leave than to book now.
          </li>
        ))}
        {soldBefore(plan.waiting).map(({ unit, of, chance, sold }) => (
          <li key={`sold ${unit} ${of}`}>
            <AppLink href={planAddress({ ...view, unit, scope: of === "topEnd" ? "top-end" : "bottom-end", to: null })}>
              {unit}
            </AppLink>{" "}
            {classWords[of]}: sold before, in {weekWords(sold.start, asOf)}. {f.probability(chance)} likely to fall due
            until then; no repair is asked for.
          </li>
        ))}
        {reasons.map(({ why, units }) => (
          <li key={why}>
            {leftOutWords[why]}:{" "}
            {units.map((unit, i) => (
              <span key={unit}>
                {i > 0 && ", "}
                <AppLink href={unitAddress(unit)}>{unit}</AppLink>
              </span>
            ))}
            .
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

/** Bookings whose repair was recorded since the plan was made, beside what was foreseen. */
export function MadeSheet({
  f,
  made,
  currency,
  asOf,
}: {
  readonly f: Formats;
  readonly made: readonly {
    readonly booking: KeptBooking;
    readonly repair: { readonly date: IsoDate; readonly cost: number | null; readonly labourHours: number | null };
  }[];
  readonly currency: string;
  readonly asOf: IsoDate;
}) {
  if (made.length === 0) return null;
  return (
    <Sheet title="Done since the plan was made">
      <ul className="plan-rest">
        {made.map(({ booking, repair }) => (
          <li key={`${booking.unit} ${booking.scope}`}>
            <AppLink href={unitAddress(booking.unit)}>{booking.unit}</AppLink> {shortScope[booking.scope]}, booked for{" "}
            {weekWords(booking.start, asOf)}, done {f.date(repair.date)}:{" "}
            {repair.labourHours === null ? "hours not told" : `${f.number(repair.labourHours)} h`} of{" "}
            {f.number(booking.work.labourHours)} h foreseen,{" "}
            {repair.cost === null ? "cost not told" : f.number(repair.cost)} of{" "}
            {wholeMoney(f, currency)(booking.cost.work)}.
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

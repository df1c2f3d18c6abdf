import { takersOf } from "../../../lib/plan/overloads.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptBooking, KeptPlan } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import type { LimitsNow } from "../../_jobs/plan-now.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { type PlanView, planAddress } from "./address.ts";
import { offBestWords } from "./off-best-words.ts";
import { shortScope, wholeMoney } from "./plan-words.ts";

const listed = 12;

/** Bookings that stand well above their best week, the dearest first: what that costs, what keeps them there, what would help. */
export function OffBestSheet(props: {
  readonly f: Formats;
  readonly plan: Pick<KeptPlan, "currency" | "firstMonday">;
  readonly bookings: readonly KeptBooking[];
  readonly limits: LimitsNow;
  readonly view: PlanView;
  readonly asOf: IsoDate;
}) {
  const { f, plan, bookings, limits, view, asOf } = props;
  const money = wholeMoney(f, plan.currency);
  const off = bookings
    .flatMap((booking) => (booking.offBest === undefined ? [] : [{ booking, of: booking.offBest }]))
    .toSorted((a, b) => b.of.extra - a.of.extra);
  if (off.length === 0) return null;
  const takers = takersOf(bookings, limits.plan, limits.workshop);
  return (
    <Sheet title="Not at its best" note="booked in a week that costs well more than the best one; what would let it in">
      <ul className="plan-rest">
        {off.slice(0, listed).map(({ booking, of }) => (
          <li key={`${booking.unit} ${booking.scope}`}>
            <AppLink href={planAddress({ ...view, unit: booking.unit, scope: booking.scope, to: of.start })}>
              {booking.unit}
            </AppLink>{" "}
            {shortScope[booking.scope]}:{" "}
            {offBestWords(f, booking, { of, money, takers, firstMonday: plan.firstMonday, asOf })}
          </li>
        ))}
        {off.length > listed && <li>{f.number(off.length - listed)} more, each at less.</li>}
      </ul>
    </Sheet>
  );
}

import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptBooking, KeptPlan } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { type PlanView, planAddress } from "./address.ts";
import { shortScope, weekWords } from "./plan-words.ts";

/** The plan on a small screen: booking by booking, with the load of its week. */
export function PlanAgenda(props: {
  readonly f: Formats;
  readonly plan: KeptPlan;
  readonly bookings: readonly KeptBooking[];
  readonly view: PlanView;
  readonly asOf: IsoDate;
}) {
  const { f, plan, bookings, view, asOf } = props;
  const within = bookings.filter(({ week }) => week < view.span);
  const rest = bookings.length - within.length;
  return (
    <>
      <ol className="plan-agenda">
        {within.map((booking) => (
          <AgendaRow
            key={`${booking.unit} ${booking.scope}`}
            f={f}
            booking={booking}
            plan={plan}
            bookings={bookings}
            view={view}
            asOf={asOf}
          />
        ))}
      </ol>
      {rest > 0 && <p className="second plan-agenda-rest">{f.number(rest)} more after these weeks.</p>}
    </>
  );
}

function AgendaRow(props: {
  readonly f: Formats;
  readonly booking: KeptBooking;
  readonly plan: KeptPlan;
  readonly bookings: readonly KeptBooking[];
  readonly view: PlanView;
  readonly asOf: IsoDate;
}) {
  const { f, booking, plan, view, asOf } = props;
  const { unit, scope, depot, week, start, sure, isPinned } = booking;
  const has = plan.depots.find((of) => of.depot === depot)?.weeks[week]?.hours ?? 0;
  const used = props.bookings
    .filter((other) => other.depot === depot)
    .reduce((sum, other) => sum + (other.span.find((use) => use.week === week)?.hours ?? 0), 0);
  const over = used - has;
  const share = (hours: number) => `${Math.min(100, (100 * hours) / Math.max(1, 1.25 * Math.max(has, used)))}%`;
  return (
    <li>
      <div className="agenda-week">
        <b>{weekWords(start, asOf).replace("week\u00a0", "")}</b>
        <span className="second small">{f.shortDate(start, asOf)}</span>
      </div>
      <div>
        <AppLink
          href={`${planAddress({ ...view, unit, scope, to: null, split: false })}#chosen`}
          variant="bare"
          className="agenda-link"
        >
          <span className="agenda-swatch" data-kind={scope === "top-end" ? "top" : "bottom"} aria-hidden="true" />
          <b>{unit}</b> {shortScope[scope]}
          {isPinned && <span className="plan-tag">pinned</span>}
        </AppLink>
        <p className="second small">
          {depot}
          {sure !== null && `, class ${f.probability(sure)} sure`}
        </p>
        <svg width="100%" height="10" aria-hidden="true">
          <rect width="100%" height="8" fill="var(--sunk)" />
          <rect width={share(used)} height="8" fill={over > 1e-6 ? "var(--past)" : "var(--ghost)"} />
          <rect x={share(has)} width="2" height="10" fill="var(--ink)" />
        </svg>
        <p className={over > 1e-6 ? "plan-over-words small" : "second small"}>
          {f.number(used)} of {f.number(has)} h{over > 1e-6 && `: ${f.number(over, over < 1 ? 1 : 0)} h over`}
        </p>
      </div>
    </li>
  );
}

import { isoWeek } from "../../../lib/calendar.ts";
import { orderBy } from "../../../lib/plan/order-by.ts";
import type { PartsDemand } from "../../../lib/plan/parts-demand.ts";
import { lastBayDay } from "../../../lib/plan/plan-calendar.ts";
import { planScopeWords } from "../../../lib/plan/scope-words.ts";
import { worthTelling } from "../../../lib/plan/waiting.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptPlan } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords, sentenceWords } from "../../../lib/wording.ts";
import type { DroppedRepair } from "../../_jobs/plan-dropped.ts";
import { CsvLink } from "../csv-link.tsx";
import { dropWords, wholeMoney } from "../plan/plan-words.ts";
import { Sheet } from "../sheet.tsx";
import { unitAddress } from "../unit-address.ts";
import { jobCardAddress, planFileAddress } from "./address.ts";
import { type NoteWeek, weekRuns } from "./note-weeks.ts";
import { classWords, figure, sureWords, weekWords, windowWords } from "./paper-words.ts";
import { RowsTable } from "./rows-table.client.tsx";

interface NoteProps {
  readonly f: Formats;
  readonly depot: string;
  readonly plan: KeptPlan;
}

/** What comes to the depot, in a sentence. */
export function noteFinding(f: Formats, { bookings, weeks }: KeptPlan): string {
  const [first] = bookings;
  if (first === undefined) return `no repair is booked within ${f.number(weeks)} weeks.`;
  const count = `${f.number(bookings.length)} ${bookings.length === 1 ? "repair is" : "repairs are"} booked`;
  return `${count}, the first ${first.unit} in ${weekWords(f, first.start)}.`;
}

/** What comes in which week. */
export function ComingSheet({
  f,
  depot,
  plan,
  parts,
  asOf,
}: NoteProps & { readonly parts: readonly PartsDemand[]; readonly asOf: IsoDate }) {
  const ordered = new Map(parts.map((of) => [`${of.unit} ${of.scope}`, of.orderBy]));
  return (
    <Sheet
      title="What comes in which week"
      controls={<CsvLink href={planFileAddress("bookings", depot)} of={`the bookings of ${depot}`} />}
      long
    >
      <RowsTable
        name={`Bookings of ${depot}`}
        columns={[
          { title: "Unit" },
          { title: "Comes" },
          { title: "For" },
          { title: "How sure" },
          { title: "Early – likely – late" },
          { title: "Hours", isNumber: true },
          { title: "In the bay until" },
          { title: "Order by" },
        ]}
        rows={plan.bookings.map((booking) => ({
          key: `${booking.unit} ${booking.scope}`,
          href: jobCardAddress(booking.unit, booking.scope),
          cells: [
            booking.unit,
            `${weekWords(f, booking.start)}${booking.isPinned ? ", pinned" : ""}`,
            planScopeWords[booking.scope],
            sureWords(f, booking),
            booking.windows.map((window) => windowWords(f, window, asOf)).join("; "),
            figure(f, booking.work.labourHours),
            f.date(lastBayDay(booking)),
            f.date(ordered.get(`${booking.unit} ${booking.scope}`) ?? orderBy(booking)),
          ],
        }))}
      />
    </Sheet>
  );
}

/** Load against capacity in the weeks with work, and when the depot is closed or at its peak. */
export function LoadSheet({ f, depot, weeks }: Omit<NoteProps, "plan"> & { readonly weeks: readonly NoteWeek[] }) {
  const busy = weeks.filter(({ bayDays, hours }) => bayDays.used > 0 || hours.used > 0);
  const runs = (which: "isClosed" | "isPeak") =>
    weekRuns(weeks.filter((week) => week[which]).map(({ start }) => start)).map(({ from, to }) =>
      from === to
        ? `week ${isoWeek(from).week} (${f.date(from)})`
        : `weeks ${isoWeek(from).week} to ${isoWeek(to).week} (from ${f.date(from)})`,
    );
  const [closed, peak] = [runs("isClosed"), runs("isPeak")];
  return (
    <Sheet
      title="Load against what the workshop has"
      controls={<CsvLink href={planFileAddress("load", depot)} of={`the load of ${depot}, week by week`} />}
      long
    >
      <p>
        {closed.length === 0 ? "No closed weeks" : `Closed ${listWords(closed)}`};{" "}
        {peak.length === 0 ? "no peak weeks" : `peak ${listWords(peak)}`} within the plan.
      </p>
      {busy.length > 0 && (
        <RowsTable
          name={`Load of ${depot}`}
          columns={[
            { title: "Week" },
            { title: "Bay days", isNumber: true },
            { title: "Hours", isNumber: true },
            { title: "Peak" },
          ]}
          rows={busy.map((week) => ({
            key: week.start,
            cells: [
              sentenceWords(weekWords(f, week.start)),
              `${figure(f, week.bayDays.used)} of ${figure(f, week.bayDays.has)}`,
              `${figure(f, week.hours.used)} of ${figure(f, week.hours.has)}`,
              week.isPeak ? "peak week" : "–",
            ],
          }))}
        />
      )}
    </Sheet>
  );
}

/** What found no room, and what waits for its next test. */
export function LeftSheet({ f, depot, plan, mondayOf }: NoteProps & { readonly mondayOf: (week: number) => IsoDate }) {
  const { waiting } = plan;
  return (
    <>
      <Sheet
        title="What could not be fitted"
        {...(plan.notFitted.length > 0 && {
          controls: <CsvLink href={planFileAddress("not-fitted", depot)} of={`what found no room at ${depot}`} />,
        })}
      >
        {plan.notFitted.length === 0 ? (
          <p>Everything that pays within the plan has its room, if not always in its best week.</p>
        ) : (
          <RowsTable
            name={`What found no room at ${depot}`}
            columns={[
              { title: "Unit" },
              { title: "For" },
              { title: "Best" },
              { title: "Waiting costs", isNumber: true },
            ]}
            rows={plan.notFitted.map(({ unit, scope, bestWeek, extra }) => ({
              key: `${unit} ${scope}`,
              href: unitAddress(unit),
              cells: [unit, planScopeWords[scope], weekWords(f, mondayOf(bestWeek)), f.money(extra, plan.currency)],
            }))}
          />
        )}
      </Sheet>
      <Sheet
        title="What waits for its next test"
        note={`from ${f.probability(worthTelling)} likely to fall due within the plan on`}
        {...(waiting.length > 0 && {
          controls: <CsvLink href={planFileAddress("waiting", depot)} of={`what waits for a test at ${depot}`} />,
        })}
      >
        {waiting.length === 0 ? (
          <p>Nothing that likely.</p>
        ) : (
          <RowsTable
            name={`What waits for a test at ${depot}`}
            columns={[{ title: "Unit" }, { title: "Class" }, { title: "Falls due within the plan", isNumber: true }]}
            rows={waiting.map(({ unit, of, chance }) => ({
              key: `${unit} ${of}`,
              href: unitAddress(unit),
              cells: [unit, classWords[of], f.probability(chance)],
            }))}
          />
        )}
      </Sheet>
    </>
  );
}

/** What people chose not to have booked, and what that costs; nothing where there is none. */
export function DroppedSheet(props: {
  readonly f: Formats;
  readonly depot: string;
  readonly currency: string;
  readonly asOf: IsoDate;
  readonly dropped: readonly DroppedRepair[];
}) {
  const { f, depot, currency, asOf, dropped } = props;
  if (dropped.length === 0) return null;
  return (
    <Sheet
      title="What was dropped"
      controls={<CsvLink href={planFileAddress("dropped", depot)} of={`what was dropped at ${depot}`} />}
    >
      <RowsTable
        name={`What was dropped at ${depot}`}
        columns={[{ title: "Unit" }, { title: "For" }, { title: "By" }, { title: "What that costs" }]}
        rows={dropped.map(({ unit, scope, by, cost }) => ({
          key: `${unit} ${scope}`,
          href: unitAddress(unit),
          cells: [
            unit,
            planScopeWords[scope],
            by,
            cost === null ? "not known" : dropWords(wholeMoney(f, currency), cost, asOf),
          ],
        }))}
      />
    </Sheet>
  );
}

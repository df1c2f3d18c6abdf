import type { PlanRow } from "../../../db/plans.ts";
import { type ComparedPlans as Compared, compareUnits, differs } from "../../../lib/plan/compare-plans.ts";
import { totalOf } from "../../../lib/plan/types.ts";
import type { KeptBooking } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";
import { aloneWords } from "./compared-words.ts";
import { ExpectedCost } from "./expected-cost.tsx";
import { shortScope, weekWords, wholeMoney } from "./plan-words.ts";

/** Two plans side by side: their sums, then repair by repair. */
export function ComparedPlans({
  f,
  compared,
  before,
  after,
  names,
}: {
  readonly f: Formats;
  readonly compared: Compared;
  readonly before: PlanRow;
  readonly after: PlanRow;
  readonly names: readonly [string, string];
}) {
  const { currency } = after.plan;
  const isSameMoney = before.plan.currency === currency;
  const money = wholeMoney(f, currency);
  const units = compareUnits(before.plan, after.plan);
  const isAlone = units.onlyBefore.length + units.onlyAfter.length > 0;
  const both = (of: (row: PlanRow) => number) => ({ before: of(before), after: of(after) });
  const sums = [
    ["Repairs booked", both(({ plan }) => plan.bookings.length), String],
    ["Repairs without room", both(({ plan }) => plan.notFitted.length), String],
    ["Expected cost of the fleet", both(({ plan }) => plan.cost), money],
    ...(isAlone
      ? ([
          [`of that, of the ${f.number(units.both.units)} units in both`, units.both, money],
          ["of that, of units in one of them alone", units.alone, money],
        ] as const)
      : []),
    ["The same with nothing booked", both(({ plan }) => plan.nothingBookedCost), money],
    ["Saved against booking nothing", both(({ plan }) => plan.nothingBookedCost - plan.cost), money],
  ] as const;
  return (
    <>
      <Sheet
        title="In all"
        {...(isSameMoney ? {} : { note: "the currency was changed between the two: amounts do not compare" })}
      >
        <ScrollBox name="Sums of both plans">
          <table className="data-table row-heads">
            <thead>
              <tr>
                <th scope="col">
                  <span className="visually-hidden">What</span>
                </th>
                <th scope="col" className="number">
                  Before
                </th>
                <th scope="col" className="number">
                  After
                </th>
                <th scope="col" className="number">
                  Difference
                </th>
              </tr>
            </thead>
            <tbody>
              {sums.map(([title, sum, words]) => (
                <tr key={title}>
                  <th scope="row">{title}</th>
                  <td className="number">{words(sum.before)}</td>
                  <td className="number">{words(sum.after)}</td>
                  <td className="number">{words(sum.after - sum.before).replace("-", "−")}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
        <p className="second small">
          Before: {names[0]}. After: {names[1]}.
          {isSameMoney && Math.abs(before.plan.nothingBookedCost - after.plan.nothingBookedCost) >= 0.5
            ? " The two were made of other facts, prices or days: what the fleet costs with nothing booked differs by these alone, what is saved by the plans."
            : ""}
        </p>
        {isAlone && <p>{aloneWords(units)}</p>}
        <ExpectedCost />
      </Sheet>
      <Sheet title="Repair by repair" note="what differs first" long>
        <ScrollBox name="Bookings of both plans">
          <table className="data-table row-heads">
            <thead>
              <tr>
                <th scope="col">Unit</th>
                <th scope="col">Depot</th>
                <th scope="col">Before</th>
                <th scope="col">After</th>
                <th scope="col" className="number">
                  Expected cost before
                </th>
                <th scope="col" className="number">
                  after
                </th>
              </tr>
            </thead>
            <tbody>
              {compared.bookings.map((one) => (
                <tr
                  key={`${one.unit} ${one.before?.scope} ${one.after?.scope}`}
                  className={differs(one) ? "plan-changed" : undefined}
                >
                  <th scope="row">
                    <AppLink href={unitAddress(one.unit)}>{one.unit}</AppLink>
                  </th>
                  <td>{one.depot}</td>
                  <td>{bookedWords(f, one.before, after.asOf)}</td>
                  <td>{bookedWords(f, one.after, after.asOf)}</td>
                  <td className="number">{one.before === null ? "–" : money(totalOf(one.before.cost))}</td>
                  <td className="number">{one.after === null ? "–" : money(totalOf(one.after.cost))}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
      </Sheet>
    </>
  );
}

const bookedWords = (f: Formats, booking: KeptBooking | null, asOf: string): string =>
  booking === null
    ? "not booked"
    : `${shortScope[booking.scope]}, ${weekWords(booking.start, asOf)} (${f.shortDate(booking.start, asOf)})${booking.isPinned ? ", pinned" : ""}`;

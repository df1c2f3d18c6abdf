import type { Formats } from "../../../lib/viewing/formats.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { type BudgetView, budgetFileAddress } from "./address.ts";
import { wholeMoney } from "./whole-money.ts";
import type { YearTold } from "./year-told.ts";

/** What was spent, beside what the frozen budget had for the same months. */
export function SpentSheet(props: {
  readonly f: Formats;
  readonly told: YearTold;
  readonly view: BudgetView;
  readonly frozen: YearTold | null;
}) {
  const { f, told, view, frozen } = props;
  const { spent, currency, asOf, fiscal } = told;
  const foreseen = frozen === null || frozen.asOf >= asOf ? null : foreseenUntil(frozen, asOf);
  const hasBegun = fiscal.from <= asOf;
  const note = hasBegun
    ? `recorded repairs from ${f.date(fiscal.from)} to ${f.date(asOf)}, with their recorded days off the road at what a day of their class costs`
    : `the fiscal year begins on ${f.date(fiscal.from)}`;
  return (
    <Sheet title="Spent so far" note={note}>
      <p>{spentWords(f, told)}</p>
      {foreseen !== null && frozen !== null && (
        <p className="second">
          The frozen budget of {f.date(frozen.asOf)} expected {wholeMoney(f, foreseen, currency)} by the end of{" "}
          {f.month(asOf)}, days off the road among it as here.
        </p>
      )}
      {spent.repairs > 0 && (
        <>
          <ScrollBox name="Spent by month">
            <table className="data-table budget-table">
              <thead>
                <tr>
                  <th scope="col">Month</th>
                  <th scope="col" className="number">
                    Spent
                  </th>
                  <th scope="col" className="number">
                    of it downtime
                  </th>
                  <th scope="col" className="number">
                    Repairs
                  </th>
                  <th scope="col" className="number">
                    without a cost on file
                  </th>
                  <th scope="col" className="number">
                    without days off
                  </th>
                  <th scope="col" className="number">
                    Labour hours
                  </th>
                </tr>
              </thead>
              <tbody>
                {spent.months.map(({ month, amount, downtime, repairs, withoutCost, withoutDays, labourHours }) => (
                  <tr key={month}>
                    <th scope="row">{f.month(`${month}-01`)}</th>
                    <td className="number">{wholeMoney(f, amount, currency)}</td>
                    <td className="number">{wholeMoney(f, downtime, currency)}</td>
                    <td className="number">{f.number(repairs)}</td>
                    <td className="number">{withoutCost === 0 ? "–" : f.number(withoutCost)}</td>
                    <td className="number">{withoutDays === 0 ? "–" : f.number(withoutDays)}</td>
                    <td className="number">{f.number(labourHours, 1)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </ScrollBox>
          <CsvLink href={budgetFileAddress("spent", view)} of="recorded repairs and what they cost" />
        </>
      )}
    </Sheet>
  );
}

/** What was spent, what of it days off the road are, and what is missing in it. */
export function spentWords(f: Formats, { spent, currency, fiscal, asOf }: YearTold): string {
  if (fiscal.from > asOf) return "Nothing can have been spent in it yet.";
  if (spent.repairs === 0) return "No repair is recorded in this fiscal year yet.";
  const repairs = `${f.number(spent.repairs)} ${spent.repairs === 1 ? "repair" : "repairs"}`;
  const some = (count: number) => (count === 1 ? "one" : f.number(count));
  const costs =
    spent.withoutCost === 0
      ? ""
      : ` Of ${some(spent.withoutCost)} no cost is recorded: it is not guessed, so more was spent than is told.`;
  const days =
    spent.withoutDays === 0
      ? ""
      : ` Of ${some(spent.withoutDays)} no days off the road are recorded: they count as none.`;
  const downtime = `, ${wholeMoney(f, spent.downtime, currency)} of it for days off the road; recorded costs are taken to hold none of these`;
  return `${wholeMoney(f, spent.amount, currency)} on ${repairs}${downtime}.${costs}${days}`;
}

/** What a frozen budget expected by the end of the month of a day, spent by its own day with it; null: it has no such month. */
function foreseenUntil({ spent, drawn }: YearTold, asOf: string): number | null {
  const until = drawn.cumulative.findLast(({ month }) => month <= asOf.slice(0, 7));
  return until === undefined ? null : spent.amount + until.expected;
}

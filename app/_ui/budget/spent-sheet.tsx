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
  const note = `recorded repairs from ${f.date(fiscal.from)} to ${f.date(asOf)}; what days out of service cost is in it only where it was recorded so`;
  return (
    <Sheet title="Spent so far" note={note}>
      <p>{spentWords(f, told)}</p>
      {foreseen !== null && frozen !== null && (
        <p className="second">
          The frozen budget of {f.date(frozen.asOf)} expected {wholeMoney(f, foreseen, currency)} by the end of{" "}
          {f.month(asOf)}, with the days out of service.
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
                    Repairs
                  </th>
                  <th scope="col" className="number">
                    without a cost on file
                  </th>
                  <th scope="col" className="number">
                    Labour hours
                  </th>
                </tr>
              </thead>
              <tbody>
                {spent.months.map(({ month, amount, repairs, withoutCost, labourHours }) => (
                  <tr key={month}>
                    <th scope="row">{f.month(`${month}-01`)}</th>
                    <td className="number">{wholeMoney(f, amount, currency)}</td>
                    <td className="number">{f.number(repairs)}</td>
                    <td className="number">{withoutCost === 0 ? "–" : f.number(withoutCost)}</td>
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

function spentWords(f: Formats, { spent, currency }: YearTold): string {
  if (spent.repairs === 0) return "No repair is recorded in this fiscal year yet.";
  const repairs = `${f.number(spent.repairs)} ${spent.repairs === 1 ? "repair" : "repairs"}`;
  const missing =
    spent.withoutCost === 0
      ? ""
      : ` Of ${spent.withoutCost === 1 ? "one" : f.number(spent.withoutCost)} no cost is recorded: it is not guessed, so more was spent than is told.`;
  return `${wholeMoney(f, spent.amount, currency)} on ${repairs}.${missing}`;
}

/** What a frozen budget expected by the end of the month of a day, spent by its own day with it; null: it has no such month. */
function foreseenUntil({ spent, drawn }: YearTold, asOf: string): number | null {
  const until = drawn.cumulative.findLast(({ month }) => month <= asOf.slice(0, 7));
  return until === undefined ? null : spent.amount + until.expected;
}

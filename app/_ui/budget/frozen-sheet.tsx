import type { Formats } from "../../../lib/viewing/formats.ts";
import { CsvLink } from "../csv-link.tsx";
import { NameGate } from "../name-gate.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { budgetFileAddress } from "./address.ts";
import { withdrawFrozen } from "./budget-actions.ts";
import type { FrozenTold } from "./budget-now.ts";
import { FreezeForm, WithdrawForm } from "./freeze-form.client.tsx";
import { wholeMoney } from "./whole-money.ts";

/** The budgets that were frozen, and the way to freeze today's. */
export function FrozenSheet(props: {
  readonly f: Formats;
  readonly budget: number;
  readonly frozen: readonly FrozenTold[];
  readonly viewer: string | null;
  readonly when: (instant: string) => string;
}) {
  const { f, budget, frozen, viewer, when } = props;
  return (
    <Sheet title="Frozen budgets" note="each kept as it was, with all that it was drawn from">
      <NameGate name={viewer} why="A budget is frozen with the name of the person who froze it.">
        <FreezeForm budget={budget} />
      </NameGate>
      {frozen.length > 0 && (
        <>
          <ScrollBox name="The frozen budgets, in figures">
            <table className="data-table budget-table">
              <thead>
                <tr>
                  <th scope="col">Name</th>
                  <th scope="col">As of</th>
                  <th scope="col">Fiscal year</th>
                  <th scope="col" className="number">
                    Spent by then
                  </th>
                  <th scope="col" className="number">
                    P50 of the year
                  </th>
                  <th scope="col" className="number">
                    P80 of the year
                  </th>
                  <th scope="col">Frozen</th>
                  <th scope="col" className="no-print">
                    <span className="visually-hidden">Withdraw</span>
                  </th>
                </tr>
              </thead>
              <tbody>
                {frozen.map(({ id, name, asOf, currency, years, frozenAt, frozenBy }) => {
                  const [year] = years;
                  return (
                    <tr key={id}>
                      <th scope="row">{name}</th>
                      <td>{f.date(asOf)}</td>
                      <td>{year?.name}</td>
                      <td className="number">{year === undefined ? "–" : wholeMoney(f, year.spent, currency)}</td>
                      <td className="number">{year === undefined ? "–" : wholeMoney(f, year.whole.p50, currency)}</td>
                      <td className="number">{year === undefined ? "–" : wholeMoney(f, year.whole.p80, currency)}</td>
                      <td>
                        {frozenAt === null ? "" : when(frozenAt)}, {frozenBy}
                      </td>
                      <td className="no-print">
                        {viewer !== null && <WithdrawForm id={id} name={name ?? ""} action={withdrawFrozen} />}
                      </td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </ScrollBox>
          <CsvLink href={budgetFileAddress("frozen")} of="frozen budgets" />
        </>
      )}
    </Sheet>
  );
}

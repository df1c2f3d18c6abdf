import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { type BudgetView, budgetAddress, budgetFileAddress } from "./address.ts";
import { groupName } from "./budget-words.ts";
import { groupings, type Where } from "./where.ts";
import { WhereTable } from "./where-table.client.tsx";
import type { YearTold } from "./year-told.ts";

const names = { depot: "Depot", class: "Class of repair", model: "Engine model" } as const;

/** Where the year's money goes, down to the unit. */
export function WhereSheet(props: {
  readonly f: Formats;
  readonly told: YearTold;
  readonly where: Where;
  readonly view: BudgetView;
}) {
  const { f, told, where, view } = props;
  const { by } = view;
  return (
    <Sheet
      title="Where it goes"
      note="spent and expected add up; P80 does not, for depots rarely run dear together"
      controls={
        <nav className="segments no-print" aria-label="What money is parted by">
          {groupings.map((grouping) => (
            <AppLink
              key={grouping}
              href={budgetAddress({ ...view, by: grouping })}
              variant="bare"
              scroll={false}
              {...(grouping === by ? { "aria-current": "page" as const } : {})}
            >
              {names[grouping]}
            </AppLink>
          ))}
        </nav>
      }
      long
    >
      <WhereTable
        head={names[by]}
        currency={told.currency}
        where={{ ...where, groups: where.groups.map((group) => ({ ...group, name: groupName(by, group.name) })) }}
      />
      <SpentOn f={f} told={told} />
      <div className="form-buttons">
        <CsvLink href={budgetFileAddress("groups", view)} of="depots, classes and engine models" isOneOfSeveral />
        <CsvLink href={budgetFileAddress("units", view)} of="units" isOneOfSeveral />
      </div>
    </Sheet>
  );
}

const spendings = ["labour", "parts", "machining", "damage", "downtime"] as const;

function SpentOn({ f, told }: { readonly f: Formats; readonly told: YearTold }) {
  const { planned, unplanned } = told.drawn;
  const rows = [
    ["planned", planned],
    ["unplanned, after failures", unplanned],
  ] as const;
  return (
    <ScrollBox name="What it is spent on">
      <table className="data-table budget-table">
        <caption>What is yet to come, by what it is spent on; expected</caption>
        <thead>
          <tr>
            <th scope="col">Repairs</th>
            {spendings.map((spending) => (
              <th key={spending} scope="col" className="number">
                {spending}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, of]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {spendings.map((spending) => (
                <td key={spending} className="number">
                  {f.money(of[spending], told.currency)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollBox>
  );
}

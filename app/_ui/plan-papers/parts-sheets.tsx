import { isoWeek } from "../../../lib/calendar.ts";
import type { PartGroup, PartsDemand } from "../../../lib/plan/parts-demand.ts";
import { partsWeeks } from "../../../lib/plan/parts-weeks.ts";
import { planScopeWords } from "../../../lib/plan/scope-words.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { countWord, sentenceWords } from "../../../lib/wording.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { jobCardAddress, planFileAddress } from "./address.ts";
import { weekWords } from "./paper-words.ts";
import { RowsTable } from "./rows-table.client.tsx";

const groupWords = {
  "gasket-set": "gasket set",
  valves: "valves",
  "pistons-rings": "pistons, rings",
  machining: "machining",
  "exchange-engine": "exchange engine",
} as const satisfies Record<PartGroup, string>;

interface PartsProps {
  readonly f: Formats;
  readonly demand: readonly PartsDemand[];
  readonly currency: string;
  readonly depot: string | null;
  readonly asOf: IsoDate;
}

/** What is to be ordered, in a sentence. */
export function partsFinding({ f, demand, currency, asOf }: Omit<PartsProps, "depot">): string {
  const [first] = demand;
  if (first === undefined) return "nothing, for no repair is booked.";
  const due = demand.filter(({ orderBy }) => orderBy <= asOf).length;
  const sum = (of: "parts" | "machining") => demand.reduce((whole, row) => whole + row[of], 0);
  const machining = sum("machining") > 0 ? ` and ${f.money(sum("machining"), currency)} of machining` : "";
  const now =
    due === 0
      ? `the first by ${f.date(first.orderBy)}`
      : due === demand.length
        ? "to be ordered now"
        : `${countWord(due)} of them now`;
  return `for ${f.number(demand.length)} ${demand.length === 1 ? "repair" : "repairs"}, ${now}: ${f.money(sum("parts"), currency)} of parts${machining}.`;
}

/** What to order for each repair, the first to be ordered first. */
export function OrdersSheet({ f, demand, currency, depot, asOf }: PartsProps) {
  const orderWords = ({ orderBy, because, forWeek }: PartsDemand) => {
    const day = orderBy <= asOf ? `now (${f.date(asOf)})` : f.date(orderBy);
    return because === "week" ? day : `${day}: early edge; for the week booked ${f.date(forWeek)}`;
  };
  return (
    <Sheet
      title="By the day on which to order"
      note="Of each repair one amount of parts is known, not what each of them costs. Which valves, rings or liners it takes shows with the head off."
      controls={<CsvLink href={planFileAddress("parts", depot)} of="the parts to order" />}
      long
    >
      <RowsTable
        name="Parts to order"
        columns={[
          { title: "Unit" },
          { title: "Order by" },
          { title: "Needed" },
          { title: "Depot" },
          { title: "For" },
          { title: "Lead, working days", isNumber: true },
          { title: "Parts", isNumber: true },
          { title: "Machining", isNumber: true },
        ]}
        rows={demand.map((row) => ({
          key: `${row.unit} ${row.scope}`,
          href: jobCardAddress(row.unit, row.scope),
          cells: [
            row.unit,
            orderWords(row),
            `week ${isoWeek(row.start).week}, ${f.date(row.start)}`,
            row.depot,
            `${planScopeWords[row.scope]}: ${row.groups.map((group) => groupWords[group]).join(", ")}`,
            f.number(row.leadDays),
            f.money(row.parts, currency),
            row.machining > 0 ? f.money(row.machining, currency) : "–",
          ],
        }))}
      />
      <p className="second">
        Parts that take two weeks or longer are decided on the early edge of the window, where that comes before the
        week booked: the bay can move, a late order can’t. Amounts are those of the week of need.
      </p>
    </Sheet>
  );
}

/** What is needed in each week, of all units together. */
export function PartsWeeksSheet({ f, demand, currency }: Pick<PartsProps, "f" | "demand" | "currency">) {
  return (
    <Sheet title="By the week of need" long>
      <RowsTable
        name="Parts by the week of need"
        columns={[
          { title: "Week" },
          { title: "First order by" },
          { title: "Units" },
          { title: "Needed" },
          { title: "Parts", isNumber: true },
          { title: "Machining", isNumber: true },
        ]}
        rows={partsWeeks(demand).map((week) => ({
          key: week.start,
          cells: [
            sentenceWords(weekWords(f, week.start)),
            f.date(week.orderBy),
            week.units.join(", "),
            week.groups.map(({ group, count }) => `${f.number(count)} × ${groupWords[group]}`).join(", "),
            f.money(week.parts, currency),
            week.machining > 0 ? f.money(week.machining, currency) : "–",
          ],
        }))}
      />
    </Sheet>
  );
}

import { tookFields } from "../../../lib/plan/closed-bookings.ts";
import { planScopeWords } from "../../../lib/plan/scope-words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { scopeWords, sentenceWords } from "../../../lib/wording.ts";
import type { PlanOutcome } from "../../_jobs/plan-papers.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { unitAddress } from "../unit-address.ts";
import { planFileAddress } from "./address.ts";
import { besideWords, fieldWords, inOneCurrency, totalWords } from "./done-words.ts";
import { RowsTable } from "./rows-table.client.tsx";

/** The latest repairs are shown; all of them are in the file. */
const mostListed = 200;

/** Each repair that a plan had booked: what was forecast, what it took, and the difference; the newest first. */
export function DoneSheet({ f, outcomes }: { readonly f: Formats; readonly outcomes: readonly PlanOutcome[] }) {
  const { same } = inOneCurrency(outcomes);
  const listed = outcomes.slice(0, mostListed);
  return (
    <Sheet
      title="Repair by repair"
      note={
        listed.length < outcomes.length
          ? `the latest ${f.number(listed.length)} of ${f.number(outcomes.length)}; the file has all`
          : undefined
      }
      controls={<CsvLink href={planFileAddress("done")} of="repairs beside their forecasts" />}
      long
    >
      <RowsTable
        name="Repairs beside their forecasts"
        columns={[
          { title: "Unit" },
          { title: "Made" },
          { title: "Booked" },
          ...tookFields.map((field) => ({ title: `${sentenceWords(fieldWords[field])}: forecast → actual` })),
        ]}
        rows={listed.map((outcome) => ({
          key: `${outcome.unit} ${outcome.repair.date} ${outcome.repair.scope}`,
          href: unitAddress(outcome.unit),
          cells: [
            outcome.unit,
            `${scopeWords[outcome.repair.scope]}, ${f.date(outcome.repair.date)}`,
            `${outcome.scopes.map((scope) => planScopeWords[scope]).join(", ")}, for ${f.date(outcome.start)}`,
            ...tookFields.map((field) => besideWords(f, field, outcome)),
          ],
        }))}
        foot={["Both known", "", "", ...tookFields.map((field) => totalWords(f, field, outcomes))]}
      />
      <p className="second">
        A repair closes the booking of the newest plan made before it that had the unit booked for any of what it puts
        right. The forecast is that plan’s, at the prices of the week booked; what is not recorded of a repair is told
        as not known.
        {same.length < outcomes.length &&
          " Amounts of other currencies, or of plans that can’t be read any more, are not in the sum of the cost."}
      </p>
    </Sheet>
  );
}

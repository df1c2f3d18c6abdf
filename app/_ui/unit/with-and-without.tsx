import type { RepairForecast } from "@/app/_jobs/with-and-without.ts";
import { withAndWithout } from "@/app/_jobs/with-and-without.ts";
import { appStore } from "@/db/app-store.ts";
import type { Crossing } from "@/lib/schema/assessment.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { Sheet } from "../sheet.tsx";
import { crossingWords } from "./unit-words.ts";

/** What hangs on the doubtful tests: the windows with them in full, and without them; made when it is looked at. */
export async function WithAndWithout({ report, f }: { readonly report: UnitReport; readonly f: Formats }) {
  const both = await withAndWithout(await appStore(), report.assessment.unit, report.asOf);
  if (both === null) return null;
  const rows = [
    { says: "With them in full", of: both["in-full"] },
    { says: "As told above, by their weights", of: report.assessment.repairs },
    { says: "Without them", of: both["left-out"] },
  ];
  return (
    <Sheet
      title="With and without the doubtful tests"
      note="how much of the forecast hangs on them; to confirm or overrule one, open it under Record"
    >
      <table className="data-table">
        <caption className="visually-hidden">Repair windows with the doubtful tests and without them</caption>
        <thead>
          <tr>
            <th scope="col">Doubtful tests</th>
            <th scope="col">Top-end: early, likely, late</th>
            <th scope="col">Bottom-end: early, likely, late</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ says, of }) => (
            <tr key={says}>
              <th scope="row" className="unit-row-name unit-row-words">
                {says}
              </th>
              <Windows of={of} f={f} />
            </tr>
          ))}
        </tbody>
      </table>
    </Sheet>
  );
}

function Windows({ of: { topEnd, bottomEnd }, f }: { readonly of: RepairForecast; readonly f: Formats }) {
  return (
    <>
      <td>{windowWords(topEnd, f)}</td>
      <td>{windowWords(bottomEnd, f)}</td>
    </>
  );
}

function windowWords({ status, date }: Crossing, f: Formats): string {
  if (status !== "projected") return crossingWords[status];
  return [date.p10, date.p50, date.p90].map((day) => (day === null ? "beyond the horizon" : f.date(day))).join(", ");
}

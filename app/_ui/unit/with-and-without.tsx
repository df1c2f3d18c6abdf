import type { RepairForecast } from "@/app/_jobs/with-and-without.ts";
import { withAndWithout } from "@/app/_jobs/with-and-without.ts";
import { appStore } from "@/db/app-store.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "./scroll-box.tsx";
import { windowDates } from "./window-dates.ts";

const title = "With and without the doubtful tests";

/** What hangs on the doubtful tests: the windows with them in full, and without them; made when it is looked at. */
export async function WithAndWithout({ report, f }: { readonly report: UnitReport; readonly f: Formats }) {
  const both = await withAndWithout(await appStore(), report);
  // The unit has just gone: the next look at its page says so.
  if (both === null) return null;
  if (!both.ok) {
    console.error(both.error.words, both.error.cause);
    return (
      <Sheet title={title}>
        <p>
          This can’t be told: with the doubtful tests in full, or without them, {both.error.words}. What is told above
          stands.
        </p>
      </Sheet>
    );
  }
  const rows = [
    { says: "With them in full", of: both.value["in-full"] },
    { says: "As told above, by their weights", of: report.assessment.repairs },
    { says: "Without them", of: both.value["left-out"] },
  ];
  return (
    <Sheet
      title={title}
      note="how much of the forecast hangs on them; to confirm or overrule one, open it under Record"
    >
      <ScrollBox name="Windows with and without the doubtful tests">
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
      </ScrollBox>
    </Sheet>
  );
}

function Windows({ of: { topEnd, bottomEnd }, f }: { readonly of: RepairForecast; readonly f: Formats }) {
  return (
    <>
      <td>{windowDates(topEnd, f)}</td>
      <td>{windowDates(bottomEnd, f)}</td>
    </>
  );
}

import type { Explained } from "@/lib/explain/types.ts";
import type { Crossing } from "@/lib/schema/assessment.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { testAddress } from "../test-sheet/address.ts";
import { dateWords, levelWords, nextTestWords, widthWords } from "./why-words.ts";

/** What one more test of the measure would do to the date and its range. */
export function NextTestSheet(props: { readonly e: Explained; readonly unit: string; readonly f: Formats }) {
  const { e, unit, f } = props;
  const title = "What a test next month would do";
  const { nextTest } = e;
  if (nextTest === null) {
    return (
      <Sheet title={title}>
        <p>
          {e.told.crossing.status === "crossed"
            ? "The limit is met: a test now tells whether the last readings hold, and cannot narrow a date."
            : "No date lies within the horizon that a test could narrow."}
        </p>
      </Sheet>
    );
  }
  const rows: readonly (readonly [string, number | null, Crossing])[] = [
    ["no test", null, nextTest.without],
    ["it reads as foreseen", nextTest.asForeseen.value, nextTest.asForeseen.crossing],
    ["it reads better", nextTest.better.value, nextTest.better.crossing],
    ["it reads worse", nextTest.worse.value, nextTest.worse.crossing],
  ];
  return (
    <Sheet title={title} note={`told for ${f.date(nextTest.date)}, with the test and without`}>
      <p>{nextTestWords(nextTest, e.measure, f)}</p>
      <table className="data-table why-next">
        <caption className="visually-hidden">Date and range by what a test next month reads</caption>
        <thead>
          <tr>
            <th scope="col">If</th>
            <th scope="col" className="number">
              Reading
            </th>
            <th scope="col">Likely</th>
            <th scope="col">Range</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([words, value, crossing]) => (
            <tr key={words}>
              <th scope="row">{words}</th>
              <td className="number">{value === null ? "" : levelWords(e, value, f)}</td>
              <td>{dateWords(crossing, "p50", f)}</td>
              <td>{widthWords(crossing, f)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="no-print">
        <AppLink href={testAddress(unit)}>Enter a test</AppLink>
      </p>
      <details className="unit-figures">
        <summary>How this is reckoned</summary>
        <p>
          One test of this kind is made up for that day, at the meter that the unit’s use foresees, and the unit is
          assessed with it under the same sisters. As foreseen, every cylinder reads the middle of its level on that
          day. Better and worse, each reads that end of the range that holds its level 8 times in 10; the reading beside
          is that of the cylinder that decides. The range runs from early to late, 8 in 10.
        </p>
      </details>
    </Sheet>
  );
}

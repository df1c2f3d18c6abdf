import type { Explained, TestEffect } from "@/lib/explain/types.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { measureWords } from "@/lib/wording.ts";
import { Sheet } from "../sheet.tsx";
import { tableRoles } from "../table-roles.ts";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { barOf } from "./bars.ts";
import { dateWords, levelWords, movedName, movedNote, moveWords, rangeNowWords, widthWords } from "./why-words.ts";

/** What each of the last tests does to the date: a bar for how far the date moves without it. */
export function TestEffectsSheet({ e, f }: { readonly e: Explained; readonly f: Formats }) {
  const title = "What each test does to the date";
  if (e.moved === null) {
    return (
      <Sheet title={title}>
        <p>
          No date lies within the horizon that a test could move. The chance to meet the limit within a year is{" "}
          {f.probability(e.told.crossing.probabilityWithinYear ?? 0)}.
        </p>
      </Sheet>
    );
  }
  const date = movedName(e.moved);
  const most = Math.max(...e.tests.map(({ laterDays }) => Math.abs(laterDays ?? 0)));
  return (
    <Sheet title={title} note={movedNote(e, f)} long>
      <ScrollBox name={`Tests and the ${date} without each`}>
        <table {...tableRoles.table} className="data-table why-tests stacked-table">
          <caption className="visually-hidden">
            Tests of {measureWords[e.measure]}, newest first, and the {date} without each
          </caption>
          <thead {...tableRoles.rows}>
            <tr {...tableRoles.row}>
              <th {...tableRoles.column} scope="col">
                Test
              </th>
              <th {...tableRoles.column} scope="col">
                <span className="why-ends">
                  <span>‹ sooner</span>
                  <span>{sentence(date)} without it</span>
                  <span>later ›</span>
                </span>
              </th>
              <th {...tableRoles.column} scope="col">
                {headings.range}
              </th>
              <th {...tableRoles.column} scope="col" className="number">
                {headings.reading}
              </th>
              <th {...tableRoles.column} scope="col" className="number">
                {headings.weight}
              </th>
            </tr>
          </thead>
          <tbody {...tableRoles.rows}>
            {e.tests.map((test) => (
              <Row
                key={`${test.date} ${test.attempt} ${test.instrument} ${test.unit}`}
                test={test}
                e={e}
                most={most}
                f={f}
              />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <details className="unit-figures">
        <summary>How this is reckoned</summary>
        <p>
          The unit is assessed again without the one test, and all else as it is: the other tests, repairs, use, and
          what the sister engines say (which may have learnt from the test too). {rangeNowWords(e, f)} Effects do not
          add up: two tests that say the same each move the date little, for the other still says it.
          {e.olderTests > 0 &&
            ` ${f.number(e.olderTests)} older ${e.olderTests === 1 ? "test counts" : "tests count"} too and ${e.olderTests === 1 ? "is" : "are"} not left out here.`}{" "}
          Relied on is what the doubts about a test and a reading leave of its weight, multiplied: 100 % where nothing
          is doubted, or a person accepted it; the unit’s page tells each doubt under Tests. Tests of other kinds have
          courses of their own; for this date they only help to tell the cause, and so which limit is in force.
        </p>
      </details>
    </Sheet>
  );
}

const headings = {
  range: "Range, early to late",
  reading: "Reading, made comparable",
  weight: "Relied on",
} as const;

const sentence = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

function Row(props: { readonly test: TestEffect; readonly e: Explained; readonly most: number; readonly f: Formats }) {
  const { test, e, most, f } = props;
  const of = e.moved ?? "p50";
  const bar = barOf(test.laterDays, most);
  return (
    <tr {...tableRoles.row}>
      <th {...tableRoles.head} scope="row">
        {f.date(test.date)}
        <span className="second small"> at {f.meter(test.meter, e.meterUnit)}</span>
      </th>
      <td {...tableRoles.cell} className="why-move">
        <span className="why-track" aria-hidden="true">
          <span
            className="why-bar"
            data-open={test.laterDays === null || undefined}
            style={{ left: `${bar.left}%`, width: `${bar.width}%` }}
          />
        </span>
        <span>{moveWords(test, of, f)}</span>
        {test.laterDays !== null && test.laterDays !== 0 && (
          <span className="second small"> {dateWords(test.without, of, f)}</span>
        )}
      </td>
      <td {...tableRoles.cell} data-label={headings.range}>
        {widthWords(test.without, f)}
      </td>
      <td {...tableRoles.cell} data-label={headings.reading} className="number">
        {test.value === null ? "not read" : levelWords(e, test.value, f)}
      </td>
      <td {...tableRoles.cell} data-label={test.value === null ? undefined : headings.weight} className="number">
        {test.value === null ? "" : f.percent(100 * test.weight)}
      </td>
    </tr>
  );
}

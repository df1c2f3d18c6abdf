import type { Miss, TrackRecord } from "../../../lib/schema/track-record.ts";
import { reasonWords } from "../../../lib/track/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { cylinderWords, sentenceWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { levelUnitOf, measureNames } from "../compare/compare-words.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";
import { trackRecordFileAddress } from "./address.ts";

/** The readings furthest from what was told, each with its reason and the way to the cylinder's course. */
export function MissesSheet({ f, record }: { readonly f: Formats; readonly record: TrackRecord }) {
  const { misses, reasons } = record;
  const named = reasons.filter((reason) => reason.count > 0);
  if (misses.length === 0) {
    return (
      <Sheet title="The worst misses">
        <p>No later reading lay beyond its 90 % range.</p>
      </Sheet>
    );
  }
  return (
    <Sheet
      title="The worst misses"
      note={`of readings beyond their 90 % range: ${named.map(({ code, count }) => `${reasonWords[code]} ${f.number(count)}`).join(" · ")}`}
      controls={<CsvLink href={trackRecordFileAddress("misses")} of="all readings beyond their 90 % range" />}
      long
    >
      <ScrollBox name="Table of misses">
        <table className="data-table record-table record-misses">
          <caption className="visually-hidden">Readings furthest from what was told</caption>
          <thead>
            <tr>
              <th scope="col">Unit</th>
              <th scope="col">Test</th>
              <th scope="col">Told on</th>
              <th scope="col">Came on</th>
              <th scope="col" className="number">
                80 % range
              </th>
              <th scope="col" className="number">
                Read
              </th>
              <th scope="col">Reason</th>
            </tr>
          </thead>
          <tbody>
            {misses.map((miss) => (
              <MissRow key={`${miss.unit} ${miss.measure} ${miss.cylinder} ${miss.came}`} f={f} miss={miss} />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <p className="record-note second">
        Reasons follow from the facts by fixed rules, the first that holds; two may be true at once, and none is proof.
        “Within the scatter” lay no further beyond its range than one reading repeats to; some one in ten lies beyond by
        chance.
      </p>
    </Sheet>
  );
}

function MissRow({ f, miss }: { readonly f: Formats; readonly miss: Miss }) {
  const { unit, measure, cylinder, made, came, p10, p90, reading, reason } = miss;
  const of = levelUnitOf(measure);
  const others = miss.cylinders.filter((other) => other !== cylinder);
  const digits = of === "%" ? 1 : 0;
  return (
    <tr>
      <th scope="row" className="unbroken">
        <AppLink href={`${unitAddress(unit)}?measure=${measure}&cylinder=${cylinder}`}>
          {unit}, cylinder {cylinder}
        </AppLink>
        {others.length > 0 && <span className="record-interval">and {cylinderWords(others)}</span>}
      </th>
      <td>{measureNames[measure]}</td>
      <td className="unbroken">{f.date(made)}</td>
      <td className="unbroken">{f.date(came)}</td>
      <td className="number unbroken">
        {f.levelFigure(p10, of, digits)} to {f.level(p90, of, digits)}
      </td>
      <td className="number unbroken">{f.level(reading, of, digits)}</td>
      <td className="record-reason">
        <strong>{sentenceWords(reasonWords[reason.code])}</strong>
        <span className="second small">{f.knowing([unit]).words(reason.words)}</span>
      </td>
    </tr>
  );
}

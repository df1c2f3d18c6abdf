import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { listWords } from "@/lib/wording.ts";
import { Sheet } from "../sheet.tsx";
import { deviationWords, heldAgainst, warningNote } from "./early-warning-words.ts";
import { ScrollBox } from "./scroll-box.tsx";
import { measureTitles, placeWords } from "./unit-words.ts";

/** Cylinders that left their family: at which test, how far, and on what evidence; nothing where none did. */
export function EarlyWarnings({ report, f }: { readonly report: UnitReport; readonly f: Formats }) {
  const warnings = report.earlyWarnings;
  const [first] = warnings;
  if (first === undefined) return null;
  const unit = report.assessment.meter.unit;
  const { cylinders } = report.model;
  return (
    <Sheet
      title="Early warning"
      note={`each cylinder against ${heldAgainst(cylinders)}; ${f.number(first.falseAlarms, 1)} false warnings in 100 cylinder-years were chosen, and the limit follows`}
    >
      <ScrollBox name="Early warnings">
        <table className="data-table unit-table">
          <caption className="visually-hidden">Cylinders that left their family, and at which test</caption>
          <thead>
            <tr>
              <th scope="col">Cylinder</th>
              <th scope="col">First seen</th>
              <th scope="col" className="number">
                Worse than expected
              </th>
              <th scope="col" className="number">
                Mean since
              </th>
              <th scope="col" className="number">
                Usual scatter
              </th>
              <th scope="col" className="number">
                Evidence
              </th>
              <th scope="col">Air heard at</th>
            </tr>
          </thead>
          <tbody>
            {warnings.map((one) => (
              <tr key={`${one.cylinder} ${one.measure}`}>
                <th scope="row" className="unit-row-name">
                  {one.cylinder} <span className="second">{measureTitles[one.measure].toLowerCase()}</span>
                </th>
                <td>
                  {f.date(one.date)} <span className="second">{f.meter(one.meter, unit)}</span>
                </td>
                <td className="number">{deviationWords(f, one, one.amount)}</td>
                <td className="number">{deviationWords(f, one, one.amountSince)}</td>
                <td className="number">{deviationWords(f, one, one.sd)}</td>
                <td className="number">
                  {f.number(one.statistic, 1)} <span className="second">limit {f.number(one.limit, 1)}</span>
                </td>
                <td>{one.heardAt.length === 0 ? "" : listWords(one.heardAt.map((place) => placeWords[place]))}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <p className="second">{warningNote(warnings, cylinders)}</p>
    </Sheet>
  );
}

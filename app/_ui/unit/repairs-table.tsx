import type { PhotoRow } from "@/db/photos.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { sentenceWords } from "@/lib/wording.ts";
import { CsvLink } from "../csv-link.tsx";
import { photosOfMark, RepairPhotos } from "../recording/repair-photos.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "./scroll-box.tsx";
import { decimalsOf } from "./set-up-words.ts";

/** Repairs on file and those that the readings suggest; both break the trend. */
export function RepairsTable({
  report,
  of,
  filesAt,
  photos = [],
  f,
}: {
  readonly report: UnitReport;
  readonly of: string;
  /** The address below which the page's tables are downloaded. */
  readonly filesAt: string;
  readonly photos?: readonly PhotoRow[];
  readonly f: Formats;
}) {
  const { meter } = report.assessment;
  const repairs = [...report.repairs].sort((a, b) => b.date.localeCompare(a.date));
  return (
    <Sheet
      title="Repairs"
      note="each starts a new life for the parts it renewed, not for the others"
      controls={repairs.length > 0 && <CsvLink href={`${filesAt}/repairs`} of={`repairs of ${of}`} />}
      long
    >
      {repairs.length === 0 ? (
        <p>No repair of this engine is on file.</p>
      ) : (
        <ScrollBox name={`Repairs of ${of}`}>
          <table className="data-table unit-repairs">
            <caption className="visually-hidden">Repairs of {of}, latest first</caption>
            <thead>
              <tr>
                <th scope="col">Date</th>
                <th scope="col" className="number">
                  Meter, {f.meterUnit(meter.unit)}
                </th>
                <th scope="col">What was done and found</th>
                <th scope="col" className="number">
                  Labour, h
                </th>
                <th scope="col" className="number">
                  Off the road, days
                </th>
                <th scope="col" className="number">
                  Cost
                </th>
              </tr>
            </thead>
            <tbody>
              {repairs.map((repair) => (
                <tr key={`${repair.date} ${repair.scope} ${repair.words}`}>
                  <td className="unit-nowrap">{f.date(repair.date)}</td>
                  <td className="number">{f.number(repair.meter * f.meterFactor(meter.unit))}</td>
                  <td>
                    {repair.scope === "assumed" && <strong>Assumed. </strong>}
                    {sentenceWords(repair.scope === "assumed" ? f.words(repair.words) : repair.words)}
                    <RepairPhotos photos={photosOfMark(photos, repair, report.model.cylinders)} f={f} />
                  </td>
                  <td className="number">{toldAsRecorded(repair.labourHours, f)}</td>
                  <td className="number">{toldAsRecorded(repair.downtimeDays, f)}</td>
                  <td className="number">
                    {repair.cost === null ? "–" : f.number(repair.cost, Number.isInteger(repair.cost) ? 0 : 2)}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
      )}
    </Sheet>
  );
}

/** With the decimals that were recorded: half an hour is not rounded to one. */
const toldAsRecorded = (figure: number | null, f: Formats): string =>
  figure === null ? "–" : f.number(figure, decimalsOf(figure));

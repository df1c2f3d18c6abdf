import type { UnitReport } from "@/lib/schema/report.ts";
import { formatDate, formatNumber, sentenceCase } from "../formats.ts";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "./scroll-box.tsx";

/** Repairs on file and those that the readings suggest; both break the trend. */
export function RepairsTable({ report }: { readonly report: UnitReport }) {
  const { unit, meter } = report.assessment;
  const repairs = [...report.repairs].sort((a, b) => b.date.localeCompare(a.date));
  return (
    <Sheet title="Repairs" note="each starts a new life for the parts it renewed, not for the others" long>
      {repairs.length === 0 ? (
        <p>No repair of this engine is on file.</p>
      ) : (
        <ScrollBox name={`Repairs of ${unit}`}>
          <table className="data-table unit-repairs">
            <caption className="visually-hidden">Repairs of {unit}, latest first</caption>
            <thead>
              <tr>
                <th scope="col">Date</th>
                <th scope="col" className="number">
                  Meter, {meter.unit}
                </th>
                <th scope="col">What</th>
                <th scope="col" className="number">
                  Labour, h
                </th>
                <th scope="col" className="number">
                  Cost
                </th>
              </tr>
            </thead>
            <tbody>
              {repairs.map((repair) => (
                <tr key={`${repair.date} ${repair.scope} ${repair.words}`}>
                  <td className="unit-nowrap">{formatDate(repair.date)}</td>
                  <td className="number">{formatNumber(repair.meter)}</td>
                  <td>
                    {repair.scope === "assumed" && <strong>Assumed. </strong>}
                    {sentenceCase(repair.words)}
                  </td>
                  <td className="number">{repair.labourHours === null ? "–" : formatNumber(repair.labourHours)}</td>
                  <td className="number">
                    {repair.cost === null ? "–" : formatNumber(repair.cost, repair.cost < 100 ? 2 : 0)}
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

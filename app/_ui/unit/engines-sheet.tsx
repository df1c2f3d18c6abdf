import type { EngineWithFittings } from "@/db/engines.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { listWords } from "@/lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { engineAddress } from "../engines/address.ts";
import { engineName } from "../engines/engine-words.ts";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "./scroll-box.tsx";

/** Engines that are or were in the unit, each leading to its own page. */
export function EnginesSheet(props: {
  readonly report: UnitReport;
  readonly engines: readonly EngineWithFittings[];
  /** The address below which the page's tables are downloaded. */
  readonly filesAt: string;
  readonly f: Formats;
}) {
  const { report, engines, filesAt, f } = props;
  const { unit } = report.assessment;
  const stays = engines.flatMap((engine) =>
    engine.fittings.filter((stay) => stay.unit === unit).map((stay) => ({ engine, stay })),
  );
  return (
    <Sheet
      title="Engines in this unit"
      note="wear follows the engine’s number, not the unit’s"
      controls={<AppLink href="/engines">All engines</AppLink>}
      long
    >
      <ScrollBox name={`Engines of ${unit}`}>
        <table className="data-table unit-repairs">
          <caption className="visually-hidden">Engines of {unit}, latest first</caption>
          <thead>
            <tr>
              <th scope="col">Engine</th>
              <th scope="col">From</th>
              <th scope="col">To</th>
              <th scope="col" className="number">
                Used here
              </th>
              <th scope="col">Other units</th>
            </tr>
          </thead>
          <tbody>
            {stays.toReversed().map(({ engine, stay }) => {
              const others = [...new Set(engine.fittings.map((s) => s.unit))].filter((other) => other !== unit);
              const end = stay.toX ?? report.xNow;
              return (
                <tr key={`${engine.engine} ${stay.fromX}`}>
                  <th scope="row" className="unit-row-name">
                    <AppLink href={engineAddress(engine.engine)}>{engineName(engine)}</AppLink>
                  </th>
                  <td>{stay.fromDate === null ? "from the first record" : f.date(stay.fromDate)}</td>
                  <td>{stay.toDate === null ? "still fitted" : f.date(stay.toDate)}</td>
                  <td className="number">{f.meter(Math.max(0, end - stay.fromX), engine.meterUnit)}</td>
                  <td>{others.length === 0 ? "none" : listWords(others)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </ScrollBox>
      <p className="unit-fold no-print">
        <CsvLink href={`${filesAt}/engines`} of={`engines of ${unit}`} />
      </p>
    </Sheet>
  );
}

import type { EngineWithFittings } from "@/db/engines.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";

/** Where an engine was, from when to when, and how much it worked there. `xNow`: its wear meter today. */
export function FittingsTable(props: {
  readonly engine: EngineWithFittings;
  readonly xNow: number | null;
  readonly name: string;
  readonly f: Formats;
}) {
  const { engine, xNow, name, f } = props;
  const { meterUnit } = engine;
  return (
    <ScrollBox name={name}>
      <table className="data-table unit-repairs">
        <caption className="visually-hidden">{name}, latest first</caption>
        <thead>
          <tr>
            <th scope="col">Unit</th>
            <th scope="col">From</th>
            <th scope="col">To</th>
            <th scope="col" className="number">
              Used there
            </th>
            <th scope="col" className="number">
              Its wear meter at the end
            </th>
          </tr>
        </thead>
        <tbody>
          {engine.fittings.toReversed().map((stay) => {
            const end = stay.toX ?? xNow;
            return (
              <tr key={`${stay.unit} ${stay.fromX}`}>
                <th scope="row" className="unit-row-name">
                  <AppLink href={unitAddress(stay.unit)}>{stay.unit}</AppLink>
                </th>
                <td>{stay.fromDate === null ? "from the first record" : f.date(stay.fromDate)}</td>
                <td>{stay.toDate === null ? "still there" : f.date(stay.toDate)}</td>
                <td className="number">{end === null ? "–" : f.meter(Math.max(0, end - stay.fromX), meterUnit)}</td>
                <td className="number">{end === null ? "–" : f.meter(end, meterUnit)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </ScrollBox>
  );
}

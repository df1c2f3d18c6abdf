"use client";

import { useLocalStorage } from "@mantine/hooks";
import type { RoundEntry } from "../../../lib/round/round-entry.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords, sentenceWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { useFormats } from "../formats.client.tsx";
import { statusWords } from "../status-words.ts";
import { tableRoles } from "../table-roles.ts";
import { enteredWords } from "../unit/entered-words.ts";
import { measureTitles } from "../unit/unit-words.ts";
import { unitAddress } from "../unit-address.ts";
import { hoursWords, reasonWords, testWords } from "./round-words.ts";
import { readTicks, tickOf, withTick } from "./ticks.ts";

/**
 * The units of a round to tick off. Ticks are kept on this device, so that they need no name and no connection; what the
 * fleet knows comes with the test itself, and a unit that was tested leaves the list.
 */
export function RoundRows({
  entries,
  showDepot,
}: {
  readonly entries: readonly RoundEntry[];
  readonly showDepot: boolean;
}) {
  const f = useFormats();
  const [ticks, setTicks] = useLocalStorage<readonly string[]>({
    key: "borecast-round",
    defaultValue: [],
    deserialize: readTicks,
  });
  const open = entries.filter((entry) => !ticks.includes(tickOf(entry)));
  const left = open.reduce((sum, { hours }) => sum + hours, 0);
  return (
    <>
      <p className="round-left needs-script" role="status">
        {open.length === entries.length
          ? "Tick off what is done; ticks stay on this device."
          : `${f.number(entries.length - open.length)} of ${f.number(entries.length)} ticked off; ${hoursWords(left, f)} left.`}
      </p>
      <table {...tableRoles.table} className="data-table round-table">
        <caption className="visually-hidden">Units to test, what is due first, with their last values</caption>
        <thead {...tableRoles.rows}>
          <tr {...tableRoles.row}>
            <th {...tableRoles.column} scope="col" className="round-tick">
              <span className="visually-hidden">Done</span>
            </th>
            <th {...tableRoles.column} scope="col">
              Unit
            </th>
            <th {...tableRoles.column} scope="col">
              Why
            </th>
            <th {...tableRoles.column} scope="col">
              Last values, as entered
            </th>
            <th {...tableRoles.column} scope="col" className="number">
              Work
            </th>
          </tr>
        </thead>
        <tbody {...tableRoles.rows}>
          {entries.map((entry) => (
            <RoundRow
              key={entry.unit}
              entry={entry}
              showDepot={showDepot}
              ticked={ticks.includes(tickOf(entry))}
              onTick={(done) => setTicks((before) => withTick(before, tickOf(entry), done))}
              f={f}
            />
          ))}
        </tbody>
      </table>
    </>
  );
}

function RoundRow(props: {
  readonly entry: RoundEntry;
  readonly showDepot: boolean;
  readonly ticked: boolean;
  readonly onTick: (done: boolean) => void;
  readonly f: Formats;
}) {
  const { entry, showDepot, ticked, onTick, f } = props;
  const { unit, depot, modelName, status, meter, meterUnit } = entry;
  return (
    <tr {...tableRoles.row} data-ticked={ticked}>
      <td {...tableRoles.cell} className="round-tick">
        <label>
          <input type="checkbox" checked={ticked} onChange={(event) => onTick(event.currentTarget.checked)} />
          <span className="visually-hidden">{unit} is done</span>
        </label>
      </td>
      <th {...tableRoles.head} scope="row" className="round-unit">
        <AppLink href={unitAddress(unit)}>{unit}</AppLink>{" "}
        <BandMark band={entry.band} tested={entry.lastTestDate !== null} />
        <div className="small second">
          {[showDepot ? (depot ?? "no depot") : null, modelName].filter((words) => words !== null).join(", ")}
          {status !== "in-service" && <span className="tag">{statusWords[status]}</span>}
        </div>
        <div className="small second">about {f.forecastMeter(meter, meterUnit)} now</div>
      </th>
      <td {...tableRoles.cell}>
        {entry.overdue && entry.lastTestDate !== null && <strong className="round-overdue">Overdue. </strong>}
        {entry.reasons.map((reason) => (
          <p key={JSON.stringify(reason)}>{reasonWords(reason, f, meterUnit)}</p>
        ))}
      </td>
      <td {...tableRoles.cell}>
        {entry.last.length === 0 && <span className="second">no values yet</span>}
        {entry.last.map((last) => (
          <p key={last.measure}>
            {measureTitles[last.measure]}, {f.date(last.date)}:{" "}
            <span className="round-values">{enteredWords(last, entry.cylinders, f)}</span>
            {last.instrument !== null && <span className="small second"> {last.instrument}</span>}
          </p>
        ))}
      </td>
      <td {...tableRoles.cell} className="number">
        {hoursWords(entry.hours, f)}
        <div className="small second">{sentenceWords(listWords(entry.tests.map((test) => testWords[test])))}</div>
      </td>
    </tr>
  );
}

import type { ReactNode } from "react";
import type { FleetRow } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { BandMark } from "../band-mark.tsx";
import { Bores } from "../bores.tsx";
import { statusWords } from "../status-words.ts";
import { likelyWords } from "../window-drawing.ts";
import type { ColumnId } from "./columns.ts";
import { lastTestWords, nextTestWords, questionWords } from "./row-words.ts";
import type { FleetShown } from "./shown.ts";

type Cell = (row: FleetRow, shown: FleetShown) => ReactNode;

/** What stands in each column of a unit's row. */
export const fleetCells: Readonly<Record<ColumnId, Cell>> = {
  band: (row) => <BandMark band={row.band} tested={row.lastTestDate !== null} />,
  depot: (row) => <Line says={row.depot} />,
  model: (row) => <Line says={row.modelName} />,
  class: (row) => <Line says={row.unitClass} />,
  status: (row) => <Line says={statusWords[row.status]} />,
  serial: (row) => <Line says={row.engineSerial} />,
  engine: (row) => <Bores layout={row.layout} bands={row.cylinderBands} />,
  place: (row, { f }) => <Place row={row} f={f} />,
  "last-test": (row, { asOf, f }) => {
    const test = lastTestWords(row, asOf, f);
    return (
      <>
        <div className={row.lastTestDate === null ? "line second" : "line"}>{test.date}</div>
        <div className={row.testOverdue ? "line line-overdue" : "line line-second"}>{test.age}</div>
      </>
    );
  },
  "next-test": (row, { asOf, f }) => {
    const test = nextTestWords(row, asOf, f);
    return (
      <>
        <div className={row.nextTestDue === null ? "line second" : "line"}>{test.date}</div>
        <div className="line line-second">{test.away}</div>
      </>
    );
  },
  meter: (row, { f }) => f.meter(row.meter, row.meterUnit),
  use: (row, { f }) => f.weeklyUse(row.perDay, row.meterUnit),
  "top-chance": (row, { f }) => <Chance of={row.topEndChance} f={f} />,
  "bottom-chance": (row, { f }) => <Chance of={row.bottomEndChance} f={f} />,
  likely: (row, { horizonEnd, f }) => {
    const lines = likelyWords(row, horizonEnd, f);
    const [first] = lines;
    return (
      <>
        {lines.map(({ part, when, modelOnly, soldOn, beyond }) => (
          <div key={part ?? "none"} className={part === null ? "line line-none" : "line"}>
            {part !== null && <span className="line-part">{`${part} `}</span>}
            {/* Beside a date beyond the horizon there would be no room for the word. */}
            {soldOn !== null && lines.length > 1 && beyond ? <span className="visually-hidden">{when}, </span> : when}
            {soldOn !== null && lines.length > 1 && (
              <span className="line-part">
                {beyond ? "sold" : ", sold"}
                <span className="visually-hidden"> before, on {f.date(soldOn)}</span>
              </span>
            )}
            {modelOnly && lines.length > 1 && <span className="visually-hidden">, from the model only</span>}
          </div>
        ))}
        {/* Where there is no room for it the dashed window says so. */}
        {lines.length === 1 && first?.soldOn != null && (
          <div className="line line-second">sold before, {f.date(first.soldOn)}</div>
        )}
        {lines.length === 1 && first?.soldOn == null && first?.modelOnly && (
          <div className="line line-second">from the model only</div>
        )}
      </>
    );
  },
};

function Line({ says }: { readonly says: string | null }) {
  if (says === null) return <span className="line second">not on file</span>;
  return (
    <span className="line" title={says}>
      {says}
    </span>
  );
}

function Chance({ of, f }: { readonly of: number | null; readonly f: Formats }) {
  return of === null ? <span className="second">not told</span> : f.probability(of);
}

function Place({ row, f }: { readonly row: FleetRow; readonly f: Formats }) {
  const [title, detail] = [f.words(row.placeTitle), f.words(row.placeDetail)];
  return (
    <>
      {row.questions > 0 ? (
        <div className="line" title={title}>
          <span className="place">{title}</span>
          <span className="tag">{questionWords(row.questions, f)}</span>
        </div>
      ) : (
        <div className={row.band === "sound" ? "line place-quiet" : "line place"} title={title}>
          {title}
        </div>
      )}
      <div className="line line-second" title={detail}>
        {detail}
      </div>
    </>
  );
}

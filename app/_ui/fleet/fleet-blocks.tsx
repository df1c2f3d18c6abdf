import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { FleetRow } from "../../../lib/schema/report.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { Bores } from "../bores.tsx";
import { TimeAxis } from "../time-axis.tsx";
import type { TimeSpan } from "../time-span.ts";
import { unitAddress } from "../unit-address.ts";
import { windowDrawing, windowLines } from "../window-drawing.ts";
import { WindowGlyph } from "../window-glyph.tsx";
import { lastTestWords, questionWords } from "./row-words.ts";

interface Shown {
  readonly rows: readonly FleetRow[];
  readonly asOf: IsoDate;
  readonly span: TimeSpan;
  readonly horizonEnd: IsoDate;
  readonly linesId: string;
}

/** The Fleet as blocks under one axis that stays in view, for small screens. */
export function FleetBlocks(props: Shown) {
  return (
    <div className="fleet-blocks">
      <div className="blocks-axis">
        <TimeAxis span={props.span} />
      </div>
      <ul>
        {props.rows.map((row) => (
          <FleetBlock key={row.unit} row={row} {...props} />
        ))}
      </ul>
    </div>
  );
}

function FleetBlock({ row, ...props }: Shown & { readonly row: FleetRow }) {
  const drawn = [row.topEnd, row.bottomEnd].some((dates) => windowDrawing(dates, props.span).kind !== "none");
  const test = lastTestWords(row, props.asOf);
  const asked = row.testOverdue || row.lastTestDate === null;
  return (
    <li className="block">
      <div className="block-head">
        <AppLink href={unitAddress(row.unit)} variant="bare" className="block-link">
          <span className="block-unit">{row.unit}</span> <span className="second">{row.depot}</span>
        </AppLink>
        <BandMark band={row.band} tested={row.lastTestDate !== null} />
      </div>
      <div className="block-place">
        <div>
          <p className={row.band === "sound" && row.questions === 0 ? "place-quiet" : "place"}>
            {row.placeTitle} {row.questions > 0 && <span className="tag">{questionWords(row.questions)}</span>}
          </p>
          <p className="second small">{row.placeDetail}</p>
        </div>
        <div>
          <Bores layout={row.layout} bands={row.cylinderBands} />
        </div>
      </div>
      {drawn && (
        <WindowGlyph
          topEnd={row.topEnd}
          bottomEnd={row.bottomEnd}
          span={props.span}
          height={36}
          linesId={props.linesId}
        />
      )}
      {windowLines(row, props.horizonEnd).map((line) => (
        <p key={line} className="second small">
          {line}
        </p>
      ))}
      {asked && row.lastTestDate !== null && (
        <p className="small">
          <strong>test overdue</strong>, last {test.date}
        </p>
      )}
    </li>
  );
}

import type { FleetRow } from "../../../lib/schema/report.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { Bores } from "../bores.tsx";
import { TimeAxis } from "../time-axis.tsx";
import { unitAddress } from "../unit-address.ts";
import { windowDrawing, windowLines } from "../window-drawing.ts";
import { WindowGlyph } from "../window-glyph.tsx";
import { GroupHeading } from "./group-heading.tsx";
import { lastTestWords, questionWords } from "./row-words.ts";
import { type FleetShown, weeksIdOf } from "./shown.ts";

/** The Fleet as blocks under one axis that stays in view, for small screens. */
export function FleetBlocks(props: FleetShown) {
  return (
    <div className="fleet-blocks">
      <div className="blocks-axis">
        <TimeAxis span={props.span} />
      </div>
      {props.runs === null ? (
        <Blocks rows={props.rows} shown={props} />
      ) : (
        props.runs.map((run) => (
          <section key={run.group.key ?? ""} className="block-group">
            <h2 className="block-group-head">
              <GroupHeading {...props} run={run} />
            </h2>
            <Blocks rows={run.rows} shown={props} />
          </section>
        ))
      )}
    </div>
  );
}

function Blocks({ rows, shown }: { readonly rows: readonly FleetRow[]; readonly shown: FleetShown }) {
  return (
    <ul>
      {rows.map((row) => (
        <FleetBlock key={row.unit} row={row} shown={shown} />
      ))}
    </ul>
  );
}

function FleetBlock({ row, shown }: { readonly row: FleetRow; readonly shown: FleetShown }) {
  const { span, f } = shown;
  const drawn = [row.topEnd, row.bottomEnd].some((dates) => windowDrawing(dates, span).kind !== "none");
  const test = lastTestWords(row, shown.asOf, f);
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
            {f.words(row.placeTitle)} {row.questions > 0 && <span className="tag">{questionWords(row.questions)}</span>}
          </p>
          <p className="second small">{f.words(row.placeDetail)}</p>
        </div>
        <div>
          <Bores layout={row.layout} bands={row.cylinderBands} />
        </div>
      </div>
      {drawn && (
        <WindowGlyph
          topEnd={row.topEnd}
          bottomEnd={row.bottomEnd}
          span={span}
          height={36}
          linesId={shown.linesId}
          weeksId={weeksIdOf(shown, row.depot)}
        />
      )}
      {windowLines(row, shown.horizonEnd, f).map((line) => (
        <p key={line} className="second small">
          {line}
        </p>
      ))}
      {row.testOverdue && row.lastTestDate !== null && (
        <p className="small">
          <strong>test overdue</strong>, last {test.date}
        </p>
      )}
    </li>
  );
}

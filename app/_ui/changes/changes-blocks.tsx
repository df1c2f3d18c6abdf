import { TimeAxis } from "../time-axis.tsx";
import { windowLines } from "../window-drawing.ts";
import { BandsThenAndNow, movedLines, Why } from "./change-parts.tsx";
import { type ChangesShown, UnitName } from "./changes-table.tsx";
import { hasWindows, MovedWindows } from "./moved-windows.tsx";

/** The units that changed as blocks under one axis that stays in view, for small screens. */
export function ChangesBlocks({ units, span, linesId, frame, f }: ChangesShown) {
  return (
    <div className="fleet-blocks">
      <div className="blocks-axis">
        <TimeAxis span={span} />
      </div>
      <ul>
        {units.map((told) => (
          <li key={told.unit} className="block">
            <div className="block-head">
              <UnitName told={told} />
              <BandsThenAndNow {...told} />
            </div>
            {movedLines(told.change, { ...frame, f }).map((line) => (
              <p key={line}>{line}</p>
            ))}
            {told.now !== null && (
              <>
                {hasWindows(told, span) && (
                  <MovedWindows now={told.now} change={told.change} span={span} linesId={linesId} />
                )}
                <span className="visually-hidden">{windowLines(told.now, frame.horizonEnd, f).join("; ")}</span>
              </>
            )}
            <div className="block-why">
              <Why why={told.why} f={f} />
            </div>
          </li>
        ))}
      </ul>
    </div>
  );
}

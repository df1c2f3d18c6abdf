import { Fragment, type ReactNode } from "react";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";

/** The engine from above, front first: its bores as they stand, and what lies between two in a row. */
export function EngineDrawing(props: {
  readonly layout: EngineModel["layout"];
  readonly rows: readonly (readonly number[])[];
  readonly between: (a: number, b: number) => ReactNode;
}) {
  const { layout, rows, between } = props;
  return (
    <div className="engine-sketch" data-layout={rows.length > 1 ? layout : "in-line"}>
      {rows.map((row, side) => (
        <Fragment key={row.join()}>
          {side > 0 && layout === "opposed" && <span className="sketch-crank" aria-hidden="true" />}
          <div className="sketch-row">
            {row.map((cylinder, place) => {
              const next = row[place + 1];
              return (
                <Fragment key={cylinder}>
                  <span className="sketch-bore" aria-hidden="true">
                    {cylinder}
                  </span>
                  {next !== undefined && between(cylinder, next)}
                </Fragment>
              );
            })}
          </div>
        </Fragment>
      ))}
    </div>
  );
}

import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { FleetRow } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import type { TimeSpan } from "../time-span.ts";
import type { FleetView } from "./address.ts";
import type { DepotWeeks } from "./depot-weeks.ts";
import type { GroupRun } from "./groups.ts";

/** What the table of the Fleet page shows. */
export interface FleetShown {
  readonly f: Formats;
  readonly view: FleetView;
  readonly rows: readonly FleetRow[];
  /** The same rows in their groups; null: not grouped. */
  readonly runs: readonly GroupRun[] | null;
  readonly asOf: IsoDate;
  readonly span: TimeSpan;
  /** The last date that forecasts reach. */
  readonly horizonEnd: IsoDate;
  /** The planning lead time: "a year". */
  readonly within: string;
  /** Of the axis' lines. */
  readonly linesId: string;
  /** By depot. */
  readonly weeks: ReadonlyMap<string, DepotWeeks>;
}

/** The drawing of a depot's weeks, where it has any. */
export const weeksIdOf = ({ weeks }: FleetShown, depot: string | null): string | undefined =>
  depot === null ? undefined : weeks.get(depot)?.id;

import type { FleetGroup, FleetGrouping, FleetRow } from "../../../lib/schema/report.ts";
import { bands } from "../../../lib/schema/words.ts";

/** Rows of a page that belong to one group. */
export interface GroupRun {
  readonly group: FleetGroup;
  /** Its first units stand on a page before this one. */
  readonly continued: boolean;
  readonly rows: readonly FleetRow[];
}

const keyOf = (row: FleetRow, grouping: FleetGrouping): string | null =>
  ({ depot: row.depot, model: row.engineModel, band: row.band })[grouping];

/** The rows of a page parted into their groups. `before`: how many units the pages before this one show. */
export function groupRuns(
  rows: readonly FleetRow[],
  groups: readonly FleetGroup[],
  { grouping, before }: { readonly grouping: FleetGrouping; readonly before: number },
): readonly GroupRun[] {
  const runs: GroupRun[] = [];
  let from = 0;
  for (const group of groups) {
    const its = rows.filter((row) => keyOf(row, grouping) === group.key);
    if (its.length > 0) runs.push({ group, continued: from < before, rows: its });
    from += group.units;
  }
  return runs;
}

/** What a group is called in words; a band is drawn with its mark besides. */
export function groupName({ key, name }: FleetGroup, grouping: FleetGrouping): string {
  if (grouping === "band") return bands.find((band) => band === key) ?? "no band yet";
  return name ?? "No depot on file";
}

import type { AltitudeTold } from "../../db/depot-overview.ts";
import type { DepotChange } from "../../db/depots.ts";
import type { ImportDetail } from "../../db/imports.ts";
import type { SettingChange } from "../../db/settings.ts";
import type { WorkshopTold } from "../../db/workshop.ts";
import type { CsvCell } from "../../lib/outtake/csv.ts";
import { type CsvTable, csvTable, yesNo } from "../../lib/outtake/csv-table.ts";
import type { DepotPeriod, DepotSetup } from "../../lib/schema/depot.ts";
import { workshopSchema } from "../../lib/schema/workshop.ts";
import type { ChangeLine } from "./change-cells.tsx";
import type { LayoutVersion } from "./layouts/layout-versions.ts";
import type { VersionRow } from "./models/version-rows.ts";

/** Who told what, and when, as files: newest first, instants in UTC, values as they are kept. */

export const settingsTable = (changes: readonly SettingChange[]): CsvTable =>
  csvTable(changes, {
    at: ({ at }) => at,
    by: ({ by }) => by,
    setting: ({ name }) => name,
    was: ({ before }) => before,
    became: ({ after }) => after,
  });

/** A row for each value that a change made another, by its place in the document; a list is one value. */
export const workshopTable = (history: readonly WorkshopTold[]): CsvTable =>
  csvTable(
    history.flatMap(({ at, by, workshop }, i) => {
      const was = keptValues(history[i + 1]?.workshop ?? workshopSchema.parse({}));
      const is = keptValues(workshop);
      const places = [...new Set([...was.keys(), ...is.keys()])].filter((place) => was.get(place) !== is.get(place));
      return places.map((what) => ({ at, by, what, was: was.get(what) ?? null, became: is.get(what) ?? null }));
    }),
    {
      at: ({ at }) => at,
      by: ({ by }) => by,
      what: ({ what }) => what,
      was: ({ was }) => was,
      became: ({ became }) => became,
    },
  );

function keptValues(value: unknown, place = ""): ReadonlyMap<string, CsvCell> {
  if (Array.isArray(value)) return new Map([[place, JSON.stringify(value)]]);
  if (typeof value !== "object" || value === null) return new Map([[place, value as CsvCell]]);
  const below = place === "" ? "" : `${place}.`;
  return new Map(Object.entries(value).flatMap(([name, part]) => [...keptValues(part, below + name)]));
}

export const depotChangesTable = (history: readonly DepotChange[]): CsvTable =>
  csvTable(history, {
    at: ({ at }) => at,
    by: ({ by }) => by,
    ...setupColumns<DepotChange>(({ setup }) => setup),
  });

/** What a depot has to work with, and when it works. */
export const setupColumns = <T>(
  setupOf: (thing: T) => DepotSetup,
): Readonly<Record<string, (thing: T) => CsvCell>> => ({
  bays: (thing) => setupOf(thing).bays,
  technicians: (thing) => setupOf(thing).technicians,
  productive_hours_per_day: (thing) => setupOf(thing).productiveHoursPerDay,
  days_per_week: (thing) => setupOf(thing).daysPerWeek,
  builders: (thing) => setupOf(thing).builders,
  labour_rate: (thing) => setupOf(thing).labourRate,
  retired: (thing) => yesNo(setupOf(thing).retired),
  periods: (thing) => setupOf(thing).periods.map(periodWords).join("; "),
});

const periodWords = (period: DepotPeriod): string => {
  const when =
    period.repeat === "yearly"
      ? `weeks ${period.firstWeek} to ${period.lastWeek}`
      : `${period.firstDate} to ${period.lastDate}`;
  return `${period.kind}, ${when}${period.remarks === null ? "" : ` (${period.remarks})`}`;
};

export const altitudesTable = (told: readonly AltitudeTold[]): CsvTable =>
  csvTable(told, {
    at: ({ at }) => at,
    by: ({ by }) => by,
    altitude_m: ({ altitudeM }) => altitudeM,
    import: ({ importId }) => importId,
    undone_by: ({ undoneBy }) => undoneBy,
  });

/** A row for each figure that a version changed. */
export const versionsTable = (rows: readonly VersionRow[]): CsvTable =>
  csvTable(
    rows.flatMap((row) => row.changes.map((change) => ({ row, change }))),
    {
      at: ({ row }) => row.committedAt,
      by: ({ row }) => row.committedBy,
      version: ({ row }) => row.version,
      what: ({ change }) => change.column,
      was: ({ row, change }) => (row.isFirst ? null : change.before),
      became: ({ change }) => change.after,
      in_force: ({ row }) => yesNo(row.isInForce),
      undone_by: ({ row }) => row.undoneBy,
      import: ({ row }) => row.importId,
    },
  );

/** A row for each thing that a version changed, or one where it changed nothing. */
export const layoutVersionsTable = (versions: readonly LayoutVersion[]): CsvTable =>
  csvTable(
    versions.flatMap((version): { readonly version: LayoutVersion; readonly change: ChangeLine | null }[] =>
      version.changes.length === 0
        ? [{ version, change: null }]
        : version.changes.map((change) => ({ version, change })),
    ),
    {
      at: ({ version }) => version.at,
      by: ({ version }) => version.by,
      version: ({ version }) => version.no,
      what: ({ change }) => change?.column ?? null,
      was: ({ change }) => change?.before ?? null,
      became: ({ change }) => change?.after ?? null,
      renamed_from: ({ version }) => version.renamed?.from ?? null,
      in_force: ({ version }) => yesNo(version.isInForce),
      withdrawn_by: ({ version }) => version.withdrawn?.by ?? null,
    },
  );

const counts = {
  new: (of: Counted) => of.newRows,
  known: (of: Counted) => of.knownRows,
  changed: (of: Counted) => of.changedRows,
  refused: (of: Counted) => of.refusedRows,
  warned: (of: Counted) => of.warnedRows,
};
type Counted = Pick<ImportDetail, "newRows" | "knownRows" | "changedRows" | "refusedRows" | "warnedRows">;

export const importsTable = (imports: readonly ImportDetail[]): CsvTable =>
  csvTable(imports, {
    at: ({ at }) => at,
    by: ({ by }) => by,
    import: ({ id }) => id,
    state: ({ state }) => state,
    origin: ({ origin }) => origin,
    files: ({ files }) => files.map(({ name }) => name).join("; "),
    ...counts,
    undone_by: ({ undoneBy }) => undoneBy,
  });

export const importFilesTable = ({ files }: ImportDetail): CsvTable =>
  csvTable(files, {
    file: ({ name }) => name,
    kind: ({ kind }) => kind,
    refused_as_a_whole: ({ refused }) => yesNo(refused),
    bytes: ({ bytes }) => bytes,
    sha256: ({ sha256 }) => sha256,
    rows: ({ rows }) => rows,
    ...counts,
  });

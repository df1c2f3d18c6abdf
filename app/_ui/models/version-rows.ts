import type { ModelVersion } from "../../../db/engine-models.ts";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import type { ChangeLine } from "../change-cells.tsx";
import { changeLines, modelChange } from "../import/change-words.ts";

export interface VersionRow extends ModelVersion {
  /** What of the model differs from the version that stood before; all of it for the first. */
  readonly changes: readonly ChangeLine[];
  readonly isFirst: boolean;
  /** It tells what stands now. */
  readonly isInForce: boolean;
}

/**
 * The versions of a model, newest first, each with what it changed. Versions of imports that were undone since changed
 * something then, but later ones are compared with what was left. What only told the same again is left out.
 */
export function versionRows(
  versions: readonly ModelVersion[],
  standing: EngineModel | null,
  f: Pick<Formats, "date">,
): readonly VersionRow[] {
  const rows: VersionRow[] = [];
  for (const [i, version] of versions.entries()) {
    const before = versions.slice(i + 1).find(({ state }) => version.state === "undone" || state === "committed");
    const changes = changeLines(modelChange(before?.model ?? {}, version.model), f);
    if (before !== undefined && changes.length === 0) continue;
    rows.push({ ...version, changes, isFirst: before === undefined, isInForce: false });
  }
  const isInForce = (row: VersionRow) =>
    row.state === "committed" && JSON.stringify(row.model) === JSON.stringify(standing);
  const inForce = rows.find(isInForce);
  return rows.map((row) => ({ ...row, isInForce: row === inForce }));
}

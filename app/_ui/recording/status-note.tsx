import type { StatusTold } from "../../../db/status-history.ts";
import type { UnitStatus } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { statusWords } from "../status-words.ts";
import { whenWords } from "../when.ts";

/** Who stopped or retired the unit, when and why; nothing while it is in service. */
export function StatusNote(props: {
  readonly status: UnitStatus;
  /** Latest first. */
  readonly told: readonly StatusTold[];
  readonly timeZone: string;
  readonly f: Formats;
}) {
  const { status, told, timeZone, f } = props;
  const latest = told.find((one) => one.undoneBy === null);
  if (status === "in-service" || latest?.status !== status) return null;
  return (
    <p className="status-note">
      {sentenceWords(statusWords[status])} by {latest.by}, {whenWords(f, timeZone, latest.at)}
      {latest.reason !== null && `: ${latest.reason}`}
    </p>
  );
}

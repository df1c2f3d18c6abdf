import type { ImportCounts } from "../../db/comparison.ts";
import { touchedUnits } from "../../db/connected.ts";
import { type ComesAlong, commitImport as commit, type Outcome } from "../../db/import-state.ts";
import { addImportIssues, importDetail } from "../../db/imports.ts";
import { markAssessed } from "../../db/meta.ts";
import type { PhotoLeft } from "../../db/photos.ts";
import type { Store } from "../../db/store.ts";
import type { RowIssue } from "../../lib/schema/intake.ts";
import { mostPhotos } from "../../lib/schema/photo.ts";
import { dateWords, scopeWords } from "../../lib/wording.ts";
import { assessing } from "./assessments-left.ts";
import { exclusively } from "./exclusive.ts";
import { noLongerHolds } from "./judge-again.ts";
import { type Act, doerOf, type JobControl, progressOf } from "./progress.ts";
import { type Reassessed, reassess } from "./reassess.ts";

export interface Committed extends Reassessed {
  readonly counts: ImportCounts;
  /** A sentence, without its full stop, for each photo that came along and was not kept. */
  readonly photosLeft: readonly string[];
}

/**
 * Makes a staged import visible in one short transaction, then assesses the units that it touched and those connected
 * with them over shared engines, under the pools in force; pools that are due (`kindsDue`) are fitted first, and then all
 * units of their kind follow. Without `takeChanges` only new rows count. `counts-changed`: something else was imported
 * meanwhile; nothing was committed, the counts are to be shown again. `no-longer-holds`: rows were judged by what is known
 * otherwise now; their files have to be read again. A cancel or failure after the transaction leaves
 * the import visible and some assessments old, until the next start makes them good: then it throws `AssessmentsLeft`.
 * What comes `along` is written in the same transaction. `beforeJudging`: called where anything changed since the rows
 * were compared; what it throws ends the commit.
 */
export function commitImport(
  store: Store,
  importId: string,
  {
    takeChanges,
    along,
    beforeJudging,
    ...act
  }: Act & {
    takeChanges: boolean;
    along?: ComesAlong;
    beforeJudging?: () => Promise<void>;
  },
  control: JobControl = {},
): Promise<Outcome<Committed>> {
  return exclusively(store, async () => {
    control.signal?.throwIfAborted();
    control.onProgress?.(progressOf("committing"));
    const judge = async () => {
      await beforeJudging?.();
      return noLongerHolds(store, importId, { takeChanges }, control);
    };
    const outcome = await commit(store, importId, { ...doerOf(act), takeChanges, ...(along && { along }), judge });
    if (!outcome.ok) return outcome;
    return assessing("The import is in", async () => {
      const units = await touchedUnits(store, importId);
      const reassessed = await reassess(store, { units, because: "import", importId }, act, control);
      const { counts } = outcome.value;
      const photosLeft = outcome.value.photosLeft.map(leftWords);
      await addImportIssues(store, importId, [
        ...photosLeft.map(issueOf("photo-left")),
        ...reassessed.notAssessed.map(issueOf("not-assessed")),
      ]);
      const rank = (await importDetail(store, importId))?.rank ?? null;
      if (rank !== null) await markAssessed(store, rank, { whole: false });
      return { ok: true, value: { counts, photosLeft, ...reassessed } };
    });
  });
}

/** Kept with the import, so that its page tells of it as well. The rows were taken. */
const issueOf =
  (code: string) =>
  (words: string): RowIssue => ({
    severity: "warning",
    code,
    file: "",
    line: null,
    column: null,
    value: null,
    words,
  });

function leftWords({ photo: { name, unit, scope, date }, why }: PhotoLeft): string {
  const reason =
    why === "unknown-repair" ? "its repair is not on file" : `a repair may have up to ${mostPhotos} photos`;
  return `the photo ${name} of ${unit}, ${scopeWords[scope]} of ${dateWords(date)}, was not kept: ${reason}`;
}

import { changedRows } from "../../../db/changed-rows.ts";
import { importOutcome } from "../../../db/import-outcome.ts";
import type { ImportDetail } from "../../../db/imports.ts";
import { isRunning } from "../../../db/reader-process.ts";
import type { Store } from "../../../db/store.ts";
import { countWord, numberWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { NameGate } from "../name-gate.tsx";
import { Sheet } from "../sheet.tsx";
import { unitAddress } from "../unit-address.ts";
import { viewerFormats } from "../viewer.ts";
import { AbandonedImport } from "./abandoned-import.client.tsx";
import { type ImportView, importAddress, rowsOnPage } from "./address.ts";
import { ChangeSheet } from "./change-sheet.tsx";
import { CommitForm } from "./commit-form.client.tsx";
import { FollowJob } from "./follow-job.client.tsx";
import {
  assessedWords,
  committedFinding,
  importTitle,
  stagedFinding,
  takenRows,
  undoChangeQuestion,
  undoQuestion,
} from "./import-words.ts";
import { UndoForm } from "./undo-form.client.tsx";
import { WaitingSheet } from "./waiting-sheet.tsx";

interface Shown {
  readonly store: Store;
  readonly detail: ImportDetail;
  readonly view: ImportView;
  /** The viewer's; null: none given yet. */
  readonly name: string | null;
  /** The job that commits or undoes it now. */
  readonly job: string | null;
}

/** An import that waits for a person: what it would do, and the way on. */
export async function StagedImport({ store, detail, view, name, job }: Shown) {
  const page = { offset: (view.changes - 1) * rowsOnPage, limit: rowsOnPage };
  const f = (await viewerFormats()).knowing(detail.files.map((file) => file.name));
  const { things, total } = await changedRows(store, detail.id, page);
  return (
    <>
      <h1 className="finding">{f.words(stagedFinding(detail))}</h1>
      <WaitingSheet detail={detail} />
      <Sheet label="Commit or discard" className="no-print">
        <NameGate name={name} why="An import is committed under the name of the person who looked at it.">
          <CommitForm importId={detail.id} newRows={detail.newRows} changedRows={detail.changedRows} job={job} />
        </NameGate>
      </Sheet>
      <ChangeSheet
        importId={detail.id}
        things={things}
        total={total}
        page={view.changes}
        addressOf={(changes) => importAddress(detail.id, { ...view, changes })}
      />
    </>
  );
}

const changesShown = 24;

/** A committed import: what it did, and how to take it back. */
export async function CommittedImport({ store, detail, name, job }: Shown) {
  const f = (await viewerFormats()).knowing(detail.files.map((file) => file.name));
  const outcome = await importOutcome(store, detail.id, { limit: changesShown });
  const left = detail.takeChanges ? 0 : detail.changedRows;
  const isForm = detail.origin !== "file";
  const question = isForm ? undoChangeQuestion(outcome.units) : undoQuestion(detail, outcome.units);
  return (
    <>
      <h1 className="finding">
        {isForm
          ? `${importTitle(detail)}.${f.words(assessedWords(outcome))}`
          : f.words(committedFinding(detail, outcome))}
      </h1>
      {left > 0 && (
        <p className="second">
          {left === 1 ? "One row that changes" : `${f.number(left)} rows that change`} what is known{" "}
          {left === 1 ? "was" : "were"} left out.
        </p>
      )}
      {outcome.changes.length > 0 && (
        <Sheet title="Now in another band">
          <ul className="band-changes">
            {outcome.changes.map(({ unit, before, after }) => (
              <li key={unit}>
                <AppLink href={unitAddress(unit)}>{unit}</AppLink>
                <span className="band-step">
                  <BandMark band={before} />
                  <span aria-hidden="true">→</span>
                  <span className="visually-hidden">then</span>
                  <BandMark band={after} />
                </span>
              </li>
            ))}
          </ul>
          {outcome.changed > outcome.changes.length && (
            <p className="second">And {f.words(countWord(outcome.changed - outcome.changes.length))} more.</p>
          )}
        </Sheet>
      )}
      <div className="form-buttons no-print">
        {job === null && (
          <AppLink href="/" variant="filled">
            Go to the Fleet
          </AppLink>
        )}
        <NameGate name={name} why="An import is undone under the name of the person who does it.">
          <UndoForm importId={detail.id} question={f.words(question)} isForm={isForm} job={job} />
        </NameGate>
      </div>
    </>
  );
}

/** An import that is still being read, was cut short, or was undone. */
export async function EndedImport({ detail, job }: Shown) {
  const f = (await viewerFormats()).knowing(detail.files.map((file) => file.name));
  const rows = takenRows(detail);
  const isRead = detail.state === "staging" && isRunning(detail.reader) !== false;
  const says = isRead
    ? "These files are still being read."
    : detail.state === "staging"
      ? "The reading of these files was cut short; nothing of them counts."
      : detail.origin !== "file"
        ? "Undone: what stood before this change stands again."
        : `Undone: ${rows === 1 ? "its one row counts" : `its ${numberWords(rows)} rows count`} no more.`;
  return (
    <>
      <h1 className="finding">{f.words(says)}</h1>
      <div className="form-buttons no-print">
        {job !== null && <FollowJob job={job} />}
        <AppLink href="/import" variant={isRead ? "filled" : "button"}>
          {isRead ? "See how far it is" : "Import files"}
        </AppLink>
        {detail.state === "staging" && !isRead && <AbandonedImport importId={detail.id} />}
      </div>
    </>
  );
}

import { fleetFacts } from "../../db/facts.ts";
import { type ImportDetail, importDetail } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import type { TestDraft } from "../../lib/schema/test-draft.ts";
import { attemptsOnFile, testsOfDraft } from "../../lib/test-entry/tests-of-draft.ts";
import { dateWords, measureWords } from "../../lib/wording.ts";
import { AssessmentsLeft } from "./assessments-left.ts";
import { commitFormImport } from "./commit-form-import.ts";
import { discardImport } from "./discard-import.ts";
import { JobError } from "./job-registry.ts";
import type { Act, JobControl } from "./progress.ts";

export interface SentSheet {
  /** The import that the sheet is kept as. */
  readonly import: string;
  /** It had arrived before: nothing was added now. */
  readonly wasThere: boolean;
}

interface SheetsAtWork {
  readonly underWay: Map<string, Promise<SentSheet>>;
  /** Ids of which a device was told that none arrived. In memory: what was on its way ends with this process. */
  readonly reopened: Set<string>;
}

const holder = globalThis as { borecastSheets?: WeakMap<Store, SheetsAtWork> };
/** On globalThis because the bundler may load this file once for pages and once for routes. */
function atWork(store: Store): SheetsAtWork {
  holder.borecastSheets ??= new WeakMap();
  const sheets = holder.borecastSheets.get(store) ?? { underWay: new Map(), reopened: new Set() };
  holder.borecastSheets.set(store, sheets);
  return sheets;
}

/**
 * Keeps a filled-in test sheet as an import of its own, and assesses its unit anew. A sheet is kept once however often it
 * is sent, at once or one after the other, also where the first answer was lost, the server was killed on the way or the
 * import was taken back since: the import's id is made from the sheet's. Another sheet of the same unit, day, kind of test
 * and instrument becomes a further attempt, never a change of the first. Throws a `JobError` where it cannot be taken;
 * nothing is kept then, and the sheet may be sent again once it is put right.
 */
export function sendTestSheet(store: Store, draft: TestDraft, act: Act, control: JobControl = {}): Promise<SentSheet> {
  const { underWay, reopened } = atWork(store);
  const running = underWay.get(draft.id);
  // Who sends meanwhile gets the same answer: it is kept once.
  if (running !== undefined) return running.then((sent) => ({ ...sent, wasThere: true }));
  if (reopened.has(draft.id)) return Promise.reject(new JobError(reopenedWords));
  const sending = sendOnce(store, draft, act, control).finally(() => underWay.delete(draft.id));
  underWay.set(draft.id, sending);
  return sending;
}

const reopenedWords = "This sheet was opened again on its device, which sends it as another one. Nothing was kept.";

/**
 * Tells a device that wants to change a sheet which it sent without an answer whether that arrived: the import that it is
 * kept as; null: none, and no sending of this id that is still on its way is taken any more.
 */
export async function reopenTestSheet(store: Store, draftId: string): Promise<string | null> {
  const { underWay, reopened } = atWork(store);
  const running = underWay.get(draftId);
  // Before anything is waited for, so that none begins meanwhile.
  reopened.add(draftId);
  await running?.catch(() => null);
  const { kept } = await placeOf(store, draftId);
  if (kept !== null) reopened.delete(draftId);
  return kept;
}

const sheetId = (draftId: string): string => `sheet-${draftId}`;
const ofUnit = (unit: string): string => `test of ${unit},`;

/** Whether an import is a test sheet of the unit. */
export const isSheetOf = ({ id, files }: Pick<ImportDetail, "id" | "files">, unit: string): boolean =>
  id.startsWith(sheetId("")) && files.some(({ name }) => name.includes(ofUnit(unit)));

async function sendOnce(store: Store, draft: TestDraft, act: Act, control: JobControl): Promise<SentSheet> {
  for (;;) {
    const { kept, left, free } = await placeOf(store, draft.id);
    if (kept !== null) return { import: kept, wasThere: true };
    for (const id of left) await discardImport(store, id, act);
    if (await keep(store, draft, free, act, control)) return { import: free, wasThere: false };
  }
}

/**
 * The import that a sheet is kept as; else the first id that an import of it may have, each being had once. `left`: imports
 * that a server which was killed left on the way; nothing of them is visible.
 */
async function placeOf(store: Store, draftId: string) {
  const left: string[] = [];
  for (let turn = 1; ; turn++) {
    const id = `${sheetId(draftId)}${turn === 1 ? "" : `-${turn}`}`;
    const state = (await importDetail(store, id))?.state;
    if (state === "committed" || state === "undone") return { kept: id, left, free: id };
    if (state === "staging" || state === "staged") left.push(id);
    if (state === undefined) return { kept: null, left, free: id };
  }
}

/** false: another test of that day came in meanwhile, so that the attempts have to be counted anew. */
async function keep(store: Store, draft: TestDraft, id: string, act: Act, control: JobControl): Promise<boolean> {
  const count = async () => attemptsOnFile(draft, (await fleetFacts(store, { units: [draft.unit] })).tests);
  const onFile = await count();
  let isOvertaken = false;
  const meanwhile = async () => {
    isOvertaken = (await count()) !== onFile;
    return isOvertaken ? "Another test of this unit came in meanwhile." : null;
  };
  const facts = {
    title: `Test sheet: ${measureWords[draft.test]} ${ofUnit(draft.unit)} ${dateWords(draft.date)}`,
    told: { tests: testsOfDraft(draft, { onFile }) },
  };
  try {
    await commitFormImport(store, facts, { ...act, meanwhile, id }, control);
    return true;
  } catch (error) {
    if (isOvertaken && error instanceof JobError) return false;
    // It is in, and the next start assesses its unit: sent again it would only be told to be there.
    if (error instanceof AssessmentsLeft) return true;
    throw error;
  }
}

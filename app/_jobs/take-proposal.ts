import { type ImportDetail, importDetail, importIssue } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import { contractCsv } from "../../lib/outtake/contract-csv.ts";
import type { Proposal } from "../../lib/schema/intake.ts";
import type { ImportSource } from "./import-source.ts";
import { JobError } from "./job-registry.ts";
import type { Act, JobControl } from "./progress.ts";
import { readAgain } from "./read-again.ts";
import { textSource } from "./text-source.ts";

/** Which proposal is meant: of which issue of the import, and which of those that the issue has, from 0. */
export interface ProposalChosen {
  readonly issue: number;
  readonly proposal: number;
}

/**
 * Takes what an issue of a waiting import proposes: its files are read once more with the corrections that it names, and a
 * new meter that was never told comes as a file of its own. Gives the import that comes of it; the first one is discarded.
 * Throws a `JobError` where there is no such proposal any more, the import does not wait, or its files were not kept.
 */
export async function takeProposal(
  store: Store,
  importId: string,
  { issue, proposal, ...act }: Act & ProposalChosen,
  control: JobControl = {},
): Promise<ImportDetail> {
  const told = await importIssue(store, importId, issue);
  const chosen = told?.proposals?.[proposal];
  const detail = await importDetail(store, importId);
  if (told === null || chosen === undefined || detail === null) {
    throw new JobError("This proposal is not there any more. Look at the import again.");
  }
  const { readAs } = detail.files.find((file) => file.name === told.file) ?? { readAs: null };
  const choices =
    chosen.cells.length === 0
      ? {}
      : { [told.file]: { corrections: [...(readAs?.corrections ?? []), ...chosen.cells] } };
  return readAgain(store, importId, { ...act, choices, more: newMeter(chosen) }, control);
}

/** The reading of a new meter as a file, which is then kept with the import like those that people gave. */
function newMeter({ reset }: Proposal): readonly ImportSource[] {
  if (reset === undefined) return [];
  const { unit, date, meter } = reset;
  const meterReadings = [{ unit, date, meter, meterReset: true }];
  return [textSource(`new meter of ${unit}, ${date}.csv`, contractCsv("meters", { meterReadings }))];
}

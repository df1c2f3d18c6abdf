import type { ImportIssueRow } from "../../../db/imports.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { groupIssues } from "./import-words.ts";
import { ListPaging } from "./list-paging.tsx";
import { PutRight, PuttingRight } from "./put-right.client.tsx";
import { TakeProposal } from "./take-proposal.client.tsx";

/** Rows of which something was said: refused, taken with a warning, or only mentioned. */
export function IssueSheet(props: {
  readonly title: string;
  /** How much it is: "37 rows and 3 files". */
  readonly amount: string;
  readonly note: string;
  readonly severity: ImportIssueRow["severity"];
  readonly importId: string;
  readonly issues: readonly ImportIssueRow[];
  /** Of issues; one row may have several. */
  readonly total: number;
  readonly page: number;
  /** The import waits, and the viewer gave a name: what is proposed can be taken. */
  readonly canTake: boolean;
  /** Whether the cell that an issue is about can be put right by hand. */
  readonly mayPutRight: NonNullable<Parameters<typeof groupIssues>[1]>;
  readonly addressOf: (page: number) => string;
}) {
  const { title, amount, total, importId, severity } = props;
  if (total === 0) return null;
  return (
    <Sheet
      title={`${title}: ${amount}`}
      note={props.note}
      long
      controls={
        <CsvLink
          href={`/api/imports/${encodeURIComponent(importId)}/issues?severity=${severity}&format=csv`}
          of={title.toLowerCase()}
        />
      }
    >
      <PuttingRight importId={importId}>
        <ul className="issue-list" data-severity={severity}>
          {groupIssues(props.issues, props.mayPutRight).map(({ id, file, says, offers, cells }) => (
            <li key={id}>
              <span className="issue-file">{file}</span> {says}
              {props.canTake && offers.length > 0 && <TakeProposal importId={importId} offers={offers} />}
              {props.canTake && cells.length > 0 && <PutRight cells={cells} />}
            </li>
          ))}
        </ul>
      </PuttingRight>
      <ListPaging label={title} of="reasons" page={props.page} total={total} addressOf={props.addressOf} />
    </Sheet>
  );
}

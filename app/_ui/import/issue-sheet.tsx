import type { ImportIssueRow } from "../../../db/imports.ts";
import { formatNumber } from "../formats.ts";
import { Sheet } from "../sheet.tsx";
import { issueSentence } from "./import-words.ts";
import { ListPaging } from "./list-paging.tsx";

/** Rows of which something was said: refused, taken with a warning, or only mentioned. */
export function IssueSheet(props: {
  readonly title: string;
  readonly note: string;
  readonly severity: ImportIssueRow["severity"];
  readonly importId: string;
  readonly issues: readonly ImportIssueRow[];
  readonly total: number;
  readonly page: number;
  readonly addressOf: (page: number) => string;
}) {
  const { title, total, importId, severity } = props;
  if (total === 0) return null;
  return (
    <Sheet
      title={`${title}: ${formatNumber(total)}`}
      note={props.note}
      long
      controls={
        <a
          className="button-link no-print"
          href={`/api/imports/${encodeURIComponent(importId)}/issues?severity=${severity}&format=csv`}
          download
        >
          Download as CSV
        </a>
      }
    >
      <ul className="issue-list" data-severity={severity}>
        {props.issues.map((issue) => (
          <li key={issue.id}>
            <span className="issue-file">{issue.file}</span> {issueSentence(issue)}
          </li>
        ))}
      </ul>
      <ListPaging label={title} page={props.page} total={total} addressOf={props.addressOf} />
    </Sheet>
  );
}

import { type ImportDetail, importIssues } from "../../../db/imports.ts";
import type { Store } from "../../../db/store.ts";
import { numberWords } from "../../../lib/wording.ts";
import { canBePutRight } from "../../_jobs/put-right.ts";
import { viewerFormats } from "../viewer.ts";
import { type ImportView, importAddress, rowsOnPage } from "./address.ts";
import { rowsAndFiles } from "./import-words.ts";
import { IssueSheet } from "./issue-sheet.tsx";

const kinds = [
  {
    list: "refused",
    severity: "refused",
    title: "Refused",
    note: "Left out. Put them right here, or in the file and import it again: rows that are known do not count twice.",
  },
  {
    list: "warnings",
    severity: "warning",
    title: "Taken with a warning",
    note: "These rows count; look whether they are meant.",
  },
  { list: "mentions", severity: "mention", title: "Also noticed", note: "Nothing was left out for these." },
] as const;

/** Counted as the finding above counts; of what is only mentioned nobody counts rows. */
function amountOf(severity: (typeof kinds)[number]["severity"], detail: ImportDetail, issues: number): string {
  const { refusedRows, warnedRows, files } = detail;
  const filesRefused = files.filter((file) => file.refused).length;
  const told = {
    refused: rowsAndFiles(refusedRows, filesRefused),
    warning: rowsAndFiles(warnedRows, 0),
    mention: "",
  }[severity];
  return told === "" ? numberWords(issues) : told;
}

/** All that was said of the import's rows, the gravest first. */
export async function ImportIssues(props: {
  readonly store: Store;
  readonly detail: ImportDetail;
  readonly view: ImportView;
  /** The viewer's; null: none given yet. */
  readonly name: string | null;
}) {
  const { store, detail, view, name } = props;
  const f = await viewerFormats();
  const pages = await Promise.all(
    kinds.map(({ list, severity }) =>
      importIssues(store, detail.id, { offset: (view[list] - 1) * rowsOnPage, limit: rowsOnPage, severity }),
    ),
  );
  return kinds.map(({ list, severity, title, note }, index) => (
    <IssueSheet
      key={list}
      title={title}
      note={note}
      severity={severity}
      importId={detail.id}
      amount={f.words(amountOf(severity, detail, pages[index]?.total ?? 0))}
      issues={pages[index]?.issues ?? []}
      total={pages[index]?.total ?? 0}
      page={view[list]}
      mayPutRight={canBePutRight}
      canTake={detail.state === "staged" && name !== null}
      addressOf={(page) => importAddress(detail.id, { ...view, [list]: page })}
    />
  ));
}

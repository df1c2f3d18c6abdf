import { Paging } from "../paging.tsx";
import { viewerFormats } from "../viewer.ts";
import { rowsOnPage } from "./address.ts";

/** Which of a list's entries these are, and the way to those before and after; nothing where all are shown. */
export async function ListPaging(props: {
  readonly label: string;
  /** What the entries are, where the list's title counts something else. */
  readonly of?: string;
  readonly page: number;
  readonly total: number;
  readonly addressOf: (page: number) => string;
}) {
  const { page, total, addressOf } = props;
  const pages = Math.ceil(total / rowsOnPage);
  if (pages <= 1 && page === 1) return null;
  const f = await viewerFormats();
  const first = Math.min(total, (page - 1) * rowsOnPage + 1);
  return (
    <Paging
      says={`${f.number(first)} to ${f.number(Math.min(total, page * rowsOnPage))} of ${f.number(total)}${props.of === undefined ? "" : ` ${props.of}`}`}
      label={`Pages of: ${props.label}`}
      steps={[
        { href: page > 1 ? addressOf(Math.min(page - 1, pages)) : null, says: "Back" },
        { href: page < pages ? addressOf(page + 1) : null, says: "Next" },
      ]}
      keepsPlace
    />
  );
}

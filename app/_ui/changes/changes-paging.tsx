import type { Formats } from "../../../lib/viewing/formats.ts";
import { Paging } from "../paging.tsx";
import { type ChangesView, changesAddress } from "./address.ts";

/** Which units these are, and the way to those before and after. */
export function ChangesPaging(props: { readonly view: ChangesView; readonly total: number; readonly f: Formats }) {
  const { view, total, f } = props;
  const first = (view.page - 1) * view.pageSize + 1;
  const last = Math.min(total, view.page * view.pageSize);
  const left = total - last;
  const rows = total === 1 ? "1 unit" : `${f.number(first)} to ${f.number(last)} of ${f.number(total)} units`;
  return (
    <Paging
      says={`${rows}, the worst first`}
      label="Pages of the list"
      steps={
        total > view.pageSize
          ? [
              { href: view.page > 1 ? changesAddress(view, { page: view.page - 1 }) : null, says: "Back" },
              {
                href: left > 0 ? changesAddress(view, { page: view.page + 1 }) : null,
                says: left > 0 ? `Next ${Math.min(left, view.pageSize)}` : "Next",
              },
            ]
          : null
      }
    />
  );
}

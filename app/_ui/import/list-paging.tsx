import { AppLink } from "../app-link.client.tsx";
import { formatNumber } from "../formats.ts";
import { rowsOnPage } from "./address.ts";

/** Which of a list's entries these are, and the way to those before and after; nothing where all are shown. */
export function ListPaging(props: {
  readonly label: string;
  readonly page: number;
  readonly total: number;
  readonly addressOf: (page: number) => string;
}) {
  const { page, total, addressOf } = props;
  const pages = Math.ceil(total / rowsOnPage);
  if (pages <= 1 && page === 1) return null;
  const first = Math.min(total, (page - 1) * rowsOnPage + 1);
  return (
    <div className="paging">
      <p>
        {formatNumber(first)} to {formatNumber(Math.min(total, page * rowsOnPage))} of {formatNumber(total)}
      </p>
      <nav aria-label={`Pages of: ${props.label}`} className="no-print">
        <Step href={page > 1 ? addressOf(Math.min(page - 1, pages)) : null}>Back</Step>
        <Step href={page < pages ? addressOf(page + 1) : null}>Next</Step>
      </nav>
    </div>
  );
}

function Step({ href, children }: { readonly href: string | null; readonly children: string }) {
  if (href === null) {
    return (
      <span className="button-link" aria-disabled="true">
        {children}
      </span>
    );
  }
  return (
    <AppLink variant="button" href={href} scroll={false}>
      {children}
    </AppLink>
  );
}

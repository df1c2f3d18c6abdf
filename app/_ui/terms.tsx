import type { TermKey } from "../../lib/glossary.ts";
import { Term } from "./term.tsx";

/** The words of the trade that a page uses in its forms and charts, each with its line of the glossary. */
export function Terms({ of }: { readonly of: readonly TermKey[] }) {
  return (
    <p className="second small terms-line no-print">
      Words used here:{" "}
      {of.map((key, i) => (
        <span key={key}>
          {i === 0 ? "" : " · "}
          <Term of={key} />
        </span>
      ))}
    </p>
  );
}

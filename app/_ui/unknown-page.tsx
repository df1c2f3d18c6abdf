import { AppLink } from "./app-link.client.tsx";
import { EmptyState } from "./empty-state.tsx";
import type { Found } from "./find/found.ts";
import type { Unknown } from "./known-address.ts";
import { Sheet } from "./sheet.tsx";
import "./find/find.css";

interface Words {
  readonly title: string;
  readonly says: string;
  readonly href: string;
  readonly link: string;
  /** A file may bring it. */
  readonly mayBeImported?: true;
}

const words: Readonly<Record<Unknown, Words>> = {
  unit: {
    title: "No unit of this number is on the books.",
    says: "Look it up in the Fleet by any part of its number, engine serial, depot or model. A new unit appears with the first file that names it.",
    href: "/",
    link: "Search the Fleet",
    mayBeImported: true,
  },
  engine: {
    title: "No engine of this number is on the books.",
    says: "Look it up in the list of engines by its number, its model or a unit that it was in.",
    href: "/engines",
    link: "All engines",
  },
  model: {
    title: "No engine model of this id is known.",
    says: "It may have been undone with the import that told it, or the address is not quite right.",
    href: "/models",
    link: "All engine models",
  },
  depot: {
    title: "No depot of this name is on the books.",
    says: "A depot appears with the first file that names it: a depots file, a units file, or results.",
    href: "/depots",
    link: "All depots",
    mayBeImported: true,
  },
  import: {
    title: "This import is not known.",
    says: "It may have been discarded or cancelled. Nothing of it was kept.",
    href: "/import",
    link: "See the last imports",
  },
  layout: {
    title: "No layout of this name is kept.",
    says: "It may have another name since. A layout is kept where it is said how the columns of a file are read.",
    href: "/import/layouts",
    link: "All layouts",
  },
  address: {
    title: "There is nothing at this address.",
    says: "The page may have been moved, or what it showed goes by another name. Nothing was changed. The Fleet lists every unit that is known.",
    href: "/",
    link: "Go to the Fleet",
  },
};

/** Stands where something was asked for that is not there: what was looked for, what is called much like it, where to look. */
export function UnknownPage({ unknown, near }: { readonly unknown: Unknown; readonly near: readonly Found[] }) {
  const { title, says, href, link, mayBeImported } = words[unknown];
  return (
    <div className="page">
      <h1 className="finding">{title}</h1>
      {near.length > 0 && (
        <Sheet title="Perhaps you meant">
          <ul className="found-list">
            {near.map((found) => (
              <li key={found.href}>
                <AppLink href={found.href}>{found.title}</AppLink> <span className="second">{found.detail}</span>
              </li>
            ))}
          </ul>
        </Sheet>
      )}
      <EmptyState says={says}>
        <AppLink href={href} variant="filled">
          {link}
        </AppLink>
        {mayBeImported && <AppLink href="/import">Import a file</AppLink>}
      </EmptyState>
    </div>
  );
}

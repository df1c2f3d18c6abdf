import type { ReactNode } from "react";
import { AppLink } from "./app-link.client.tsx";

export interface PagingStep {
  /** null: there is no such page. */
  readonly href: string | null;
  readonly says: string;
}

/** Which entries of a list these are, and the way to those before and after. `keepsPlace`: the page does not scroll up. */
export function Paging(props: {
  readonly says: ReactNode;
  readonly label: string;
  /** null: all entries are shown. */
  readonly steps: readonly [back: PagingStep, next: PagingStep] | null;
  readonly keepsPlace?: boolean;
}) {
  const { says, label, steps, keepsPlace = false } = props;
  return (
    <div className="paging">
      <p>{says}</p>
      {steps !== null && (
        <nav aria-label={label} className="no-print">
          <Step {...steps[0]} keepsPlace={keepsPlace} />
          <Step {...steps[1]} keepsPlace={keepsPlace} />
        </nav>
      )}
    </div>
  );
}

function Step({ href, says, keepsPlace }: PagingStep & { readonly keepsPlace: boolean }) {
  if (href === null) {
    return (
      <span className="button-link" aria-disabled="true">
        {says}
      </span>
    );
  }
  return (
    <AppLink variant="button" href={href} scroll={!keepsPlace}>
      {says}
    </AppLink>
  );
}

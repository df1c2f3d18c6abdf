import type { ReactNode } from "react";

/** Nothing to show: says why, and what leads on. */
export function EmptyState({ says, children }: { readonly says: string; readonly children?: ReactNode }) {
  return (
    <div className="empty-state">
      <p>{says}</p>
      {children}
    </div>
  );
}

import type { ReactNode } from "react";

/** A short warning at the step that it belongs to. */
export function Caution({ children }: { readonly children: ReactNode }) {
  return (
    <p className="caution">
      <strong>Caution.</strong> {children}
    </p>
  );
}

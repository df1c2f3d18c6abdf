import type { ReactNode } from "react";

/** A named box that a wide table scrolls in; it takes the keyboard. */
export function ScrollBox({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard.
    <section className="scroll-box" aria-label={name} tabIndex={0}>
      {children}
    </section>
  );
}

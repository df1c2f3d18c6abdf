"use client";

import { usePathname } from "next/navigation";
import { type ReactNode, useEffect, useRef } from "react";

/** The header's panel. A plain disclosure, so that it opens without script; Escape, a click beside and a move close it. */
export function HeaderMenu({ title, children }: { readonly title: ReactNode; readonly children: ReactNode }) {
  const box = useRef<HTMLDetailsElement>(null);
  const pathname = usePathname();

  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of the path is what closes the panel
  useEffect(() => {
    box.current?.removeAttribute("open");
  }, [pathname]);

  useEffect(() => {
    const close = (event: MouseEvent | KeyboardEvent) => {
      const details = box.current;
      if (details === null || !details.open) return;
      const beside = event instanceof MouseEvent && event.target instanceof Node && !details.contains(event.target);
      const byEscape = event instanceof KeyboardEvent && event.key === "Escape";
      if (beside || byEscape) details.open = false;
      if (byEscape) details.querySelector("summary")?.focus();
    };
    document.addEventListener("click", close);
    document.addEventListener("keydown", close);
    return () => {
      document.removeEventListener("click", close);
      document.removeEventListener("keydown", close);
    };
  }, []);

  return (
    <details ref={box} className="header-menu">
      <summary>{title}</summary>
      <div className="header-panel">{children}</div>
    </details>
  );
}

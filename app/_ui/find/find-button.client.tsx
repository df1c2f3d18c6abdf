"use client";

import { useHotkeys } from "@mantine/hooks";
import dynamic from "next/dynamic";
import { type MouseEvent, useRef, useState } from "react";

// The box is no part of a page's first script.
const FindBox = dynamic(() => import("./find-box.client.tsx"), { ssr: false });

/** Opens the search; without script it leads to the page of the same. Ctrl-K or Cmd-K opens it from anywhere. */
export function FindButton() {
  const [open, setOpen] = useState(false);
  const opener = useRef<Element | null>(null);
  const show = () => {
    opener.current = document.activeElement;
    setOpen(true);
  };
  // The box goes as it closes, so that it cannot give the keyboard back itself.
  const close = () => {
    setOpen(false);
    requestAnimationFrame(() => {
      if (opener.current instanceof HTMLElement) opener.current.focus({ preventScroll: true });
    });
  };
  useHotkeys([["mod+K", show]], []);
  const onClick = (event: MouseEvent) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    show();
  };
  return (
    <>
      <a
        href="/find"
        className="find-button"
        aria-label="Find unit or page"
        aria-keyshortcuts="Control+K"
        onClick={onClick}
      >
        <svg width="15" height="15" viewBox="0 0 15 15" aria-hidden="true">
          <circle cx="6" cy="6" r="4.6" fill="none" stroke="currentColor" strokeWidth="1.6" />
          <path d="M9.5 9.5 14 14" stroke="currentColor" strokeWidth="1.8" />
        </svg>
        <span className="find-words">Find unit or page</span>
        <kbd className="find-key">Ctrl K</kbd>
      </a>
      {open && <FindBox onClosed={close} />}
    </>
  );
}

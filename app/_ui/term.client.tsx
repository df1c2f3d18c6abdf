"use client";

import { Popover } from "@mantine/core";
import { type ReactNode, useId } from "react";

/** A trade word with its meaning a press away. */
export function Term({ word, children }: { readonly word: string; readonly children: ReactNode }) {
  const id = useId();
  return (
    <Popover width={280} position="bottom-start" withinPortal id={id}>
      <Popover.Target>
        <button type="button" className="term">
          {word}
        </button>
      </Popover.Target>
      <Popover.Dropdown className="term-meaning">{children}</Popover.Dropdown>
    </Popover>
  );
}

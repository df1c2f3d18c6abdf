"use client";

import { Popover } from "@mantine/core";
import { useMounted } from "@mantine/hooks";
import { useEffect, useId, useState } from "react";
import { AppLink } from "./app-link.client.tsx";

/** A word whose meaning is a press away; see `Term`, which knows the meanings. */
export function TermHelp(props: { readonly shown: string; readonly meaning: string; readonly at: string }) {
  const id = useId();
  const [opened, setOpened] = useState(false);
  // Escape closes it wherever the keyboard is: the popover itself hears it only from within.
  useEffect(() => {
    if (!opened) return;
    const close = (event: KeyboardEvent) => event.key === "Escape" && setOpened(false);
    document.addEventListener("keydown", close);
    return () => document.removeEventListener("keydown", close);
  }, [opened]);
  // Made on the server, the popover of each word takes longer than all that is round it, and stays shut. Until the script
  // runs, the word leads to the list of words, so that a press is never in vain.
  if (!useMounted()) {
    return (
      <a className="term" href={props.at}>
        {props.shown}
      </a>
    );
  }
  return (
    <Popover width={280} position="bottom-start" withinPortal id={id} opened={opened} onChange={setOpened}>
      <Popover.Target>
        <button type="button" className="term" onClick={() => setOpened(!opened)}>
          {props.shown}
        </button>
      </Popover.Target>
      <Popover.Dropdown className="term-meaning" aria-label={`What ${props.shown} means`}>
        <p>{props.meaning}</p>
        <AppLink href={props.at}>All words</AppLink>
      </Popover.Dropdown>
    </Popover>
  );
}

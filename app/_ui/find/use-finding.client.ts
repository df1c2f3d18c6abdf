"use client";

import { useEffect, useMemo, useState } from "react";
import type { FoundGroup } from "./found.ts";

export interface Finding {
  readonly state: "asking" | "found" | "failed";
  /** What is found for the text; while it is asked for, what was found for the one before. */
  readonly groups: readonly FoundGroup[];
}

/** A pause in typing after which the server is asked. */
const pauseMs = 120;

/** What the server finds for a text. An answer to another text than the one given counts as none. */
export function useFinding(text: string): Finding {
  const [answer, setAnswer] = useState<Finding & { readonly of: string | null }>({
    state: "asking",
    groups: [],
    of: null,
  });
  useEffect(() => {
    const given = new AbortController();
    const ask = async () => {
      try {
        const answer = await fetch(`/api/search?q=${encodeURIComponent(text)}`, { signal: given.signal });
        if (!answer.ok) throw new Error(String(answer.status));
        const { groups } = (await answer.json()) as { readonly groups: readonly FoundGroup[] };
        setAnswer({ state: "found", groups, of: text });
      } catch {
        if (!given.signal.aborted) setAnswer({ state: "failed", groups: [], of: text });
      }
    };
    const later = setTimeout(ask, text === "" ? 0 : pauseMs);
    return () => {
      clearTimeout(later);
      given.abort();
    };
  }, [text]);
  return useMemo(() => (answer.of === text ? answer : { state: "asking", groups: answer.groups }), [answer, text]);
}

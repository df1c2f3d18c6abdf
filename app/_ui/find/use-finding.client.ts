"use client";

import { useEffect, useState } from "react";
import type { FoundGroup } from "./found.ts";

export type Finding =
  | { readonly state: "asking" }
  | { readonly state: "found"; readonly groups: readonly FoundGroup[] }
  | { readonly state: "failed" };

/** A pause in typing after which the server is asked. */
const pauseMs = 120;

/** What the server finds for a text; what was found before stays until the next answer is here. */
export function useFinding(text: string): Finding {
  const [finding, setFinding] = useState<Finding>({ state: "asking" });
  useEffect(() => {
    const given = new AbortController();
    const ask = async () => {
      try {
        const answer = await fetch(`/api/search?q=${encodeURIComponent(text)}`, { signal: given.signal });
        if (!answer.ok) throw new Error(String(answer.status));
        const { groups } = (await answer.json()) as { readonly groups: readonly FoundGroup[] };
        setFinding({ state: "found", groups });
      } catch {
        if (!given.signal.aborted) setFinding({ state: "failed" });
      }
    };
    const later = setTimeout(ask, text === "" ? 0 : pauseMs);
    return () => {
      clearTimeout(later);
      given.abort();
    };
  }, [text]);
  return finding;
}

"use client";

import { type RefObject, useEffect } from "react";

/**
 * Leads whoever asked to the first field or answer that was not taken, else the keyboard would be nowhere. `answer`: what the asking
 * came to; each new one is looked at once.
 */
export function useRefusedField(
  form: RefObject<HTMLFormElement | null>,
  answer: { readonly problems: Readonly<Record<string, string>> } | null,
): void {
  useEffect(() => {
    if (answer === null || Object.keys(answer.problems).length === 0) return;
    form.current?.querySelector<HTMLElement>("[aria-invalid=true], [data-refused=true]")?.focus();
  }, [form, answer]);
}

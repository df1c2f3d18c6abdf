"use client";

import { type FormEvent, startTransition, useActionState, useState, useTransition } from "react";
import { askServer } from "./ask-server.client.ts";

/**
 * A form that a server action answers, with or without script. With it, an action that cannot be reached is answered by
 * `otherwise` instead of taking the page away. Gives the answer, what the form element needs, and whether one is awaited.
 */
export function useServerForm<S>(
  action: (before: S, form: FormData) => Promise<S>,
  initial: Awaited<S>,
  otherwise: (before: S, form: FormData, problem: string) => S,
) {
  const [withoutScript, formAction] = useActionState(action, initial);
  const [withScript, setWithScript] = useState<S | null>(null);
  const [pending, startAsking] = useTransition();
  const answer = withScript ?? withoutScript;
  const onSubmit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    startAsking(async () => {
      const next = await askServer(
        () => action(answer, form),
        (problem) => otherwise(answer, form, problem),
      );
      startTransition(() => setWithScript(next));
    });
  };
  return { answer, form: { action: formAction, onSubmit }, pending } as const;
}

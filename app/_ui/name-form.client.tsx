"use client";

import { Button, TextInput } from "@mantine/core";
import { useActionState } from "react";
import { keepViewerName, type NameOutcome } from "./viewer-actions.ts";

/** Asks for the viewer's name, or lets it be changed. */
export function NameForm({ name, label = "Your name" }: { readonly name: string | null; readonly label?: string }) {
  const before: NameOutcome = { kept: name, problem: null };
  const [outcome, keep, pending] = useActionState(keepViewerName, before);
  return (
    <form action={keep} className="name-form">
      <TextInput
        name="name"
        label={label}
        description="Kept with each change you make."
        defaultValue={name ?? ""}
        maxLength={60}
        autoComplete="name"
        error={outcome.problem}
        required
        withAsterisk={false}
      />
      <Button type="submit" variant="default" loading={pending}>
        Keep name
      </Button>
      <p role="status" className="visually-hidden">
        {outcome.problem === null && outcome.kept !== null && outcome.kept !== name ? `Name kept: ${outcome.kept}` : ""}
      </p>
    </form>
  );
}

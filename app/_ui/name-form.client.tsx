"use client";

import { Button, TextInput } from "@mantine/core";
import { useServerForm } from "./use-server-form.client.ts";
import { keepViewerName, type NameOutcome } from "./viewer-actions.ts";

/** Asks for the viewer's name, or lets it be changed. */
export function NameForm({ name, label = "Your name" }: { readonly name: string | null; readonly label?: string }) {
  const before: NameOutcome = { kept: name, problem: null };
  const {
    answer: outcome,
    form,
    pending,
  } = useServerForm(keepViewerName, before, (_, __, problem) => ({ kept: name, problem }));
  return (
    <form {...form} className="name-form">
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

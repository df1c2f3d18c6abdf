"use client";

import { Button, TextInput } from "@mantine/core";
import { useServerForm } from "./use-server-form.client.ts";
import { keepViewerName, type NameOutcome } from "./viewer-actions.ts";

const nothing: NameOutcome = { kept: null, problem: null };

/** Asks for the viewer's name, or lets it be changed. */
export function NameForm({ name, label = "Your name" }: { readonly name: string | null; readonly label?: string }) {
  const {
    answer: { kept, problem },
    form,
    pending,
  } = useServerForm(keepViewerName, nothing, (_, __, problem) => ({ kept: null, problem }));
  return (
    <form {...form} className="name-form">
      <TextInput
        key={name}
        name="name"
        label={label}
        description="Kept with each change you make."
        defaultValue={name ?? ""}
        maxLength={60}
        autoComplete="name"
        error={problem}
        required
        withAsterisk={false}
      />
      <Button type="submit" variant="default" loading={pending}>
        Keep name
      </Button>
      <p role="status" className="second form-status">
        {kept === null ? "" : "Kept in this browser."}
      </p>
    </form>
  );
}

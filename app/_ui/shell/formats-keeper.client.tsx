"use client";

import { Button } from "@mantine/core";
import type { ReactNode } from "react";
import { ErrorNote } from "../error-note.tsx";
import { useServerForm } from "../use-server-form.client.ts";
import { type FormatsOutcome, keepPreferences } from "../viewer-actions.ts";

const nothing: FormatsOutcome = { kept: false, problem: null };

/** The form round the fields of the viewer's formats: keeps them, and tells whether it did. */
export function FormatsKeeper({ children }: { readonly children: ReactNode }) {
  const {
    answer: { kept, problem },
    form,
    pending,
  } = useServerForm(keepPreferences, nothing, (_, __, problem) => ({ kept: false, problem }));
  return (
    <form {...form} className="formats-form">
      {children}
      {problem !== null && <ErrorNote happened={problem} kept="The formats are as they were." />}
      <Button type="submit" variant="default" loading={pending}>
        Keep formats
      </Button>
      <p role="status" className="second form-status">
        {kept ? "Kept in this browser." : ""}
      </p>
    </form>
  );
}

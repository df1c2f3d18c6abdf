"use client";

import { Button, Textarea, TextInput } from "@mantine/core";
import { ErrorNote } from "../error-note.tsx";
import { useServerForm } from "../use-server-form.client.ts";
import { type NoteOutcome, writeNote } from "./note-actions.ts";

const nothing: NoteOutcome = { given: null, problems: {}, kept: 0 };

/** Writes a note about the unit. `today`: the day that the form proposes; `latest`: the last that it may be. Works without script. */
export function NoteForm(props: { readonly unit: string; readonly today: string; readonly latest: string }) {
  const { unit, today, latest } = props;
  const {
    answer: { given, problems, kept },
    form,
    pending,
  } = useServerForm(writeNote, nothing, (before, sent, problem) => ({
    ...before,
    given: { text: String(sent.get("text")), date: String(sent.get("date")) },
    problems: { form: problem },
  }));
  return (
    <form {...form} className="note-form" aria-busy={pending}>
      {problems.form !== undefined && <ErrorNote happened={problems.form} kept="The note was not kept." />}
      <input type="hidden" name="unit" value={unit} />
      <Textarea
        key={`text ${kept}`}
        name="text"
        label="Note"
        description="What was seen, heard or agreed. Up to 2,000 characters."
        defaultValue={given?.text ?? ""}
        error={problems.text}
        maxLength={2000}
        minRows={3}
        autosize
        required
        withAsterisk={false}
      />
      <div className="note-form-foot">
        <TextInput
          key={`date ${kept}`}
          type="date"
          name="date"
          label="Day"
          defaultValue={given?.date ?? today}
          max={latest}
          error={problems.date}
          required
          withAsterisk={false}
        />
        <Button type="submit" variant="default" loading={pending}>
          Keep note
        </Button>
      </div>
      <p role="status" className="visually-hidden">
        {kept > 0 && given === null ? "Note kept." : ""}
      </p>
    </form>
  );
}

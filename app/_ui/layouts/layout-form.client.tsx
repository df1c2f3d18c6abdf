"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useRef, useState, useTransition } from "react";
import type { Layout } from "../../../lib/layout/layout.ts";
import { askServer } from "../ask-server.client.ts";
import { JobLine } from "../asking/job-line.client.tsx";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { progressWords } from "../import/progress-words.ts";
import { useJob } from "../import/use-job.client.ts";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { readByLayout } from "./layout-actions.ts";
import { type ColumnShown, LayoutColumns } from "./layout-columns.client.tsx";
import { LayoutFileValues } from "./layout-file-values.client.tsx";
import { LayoutName, LayoutProblems } from "./layout-name.client.tsx";
import { type LayoutOutcome, nothingRead } from "./layout-outcome.ts";

/**
 * How the columns of one file are read: as they were suggested or kept, to be changed and tried. Reading it anew leads to
 * the preview of what came of it; nothing counts before that is imported.
 */
export function LayoutForm(props: {
  readonly importId: string;
  readonly file: string;
  readonly layout: Layout;
  readonly shown: readonly ColumnShown[];
  /** Under which the layout was kept; empty: it was not. */
  readonly name: string;
}) {
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [layout, setLayout] = useState(props.layout);
  const [name, setName] = useState(props.name);
  const [outcome, setOutcome] = useState<LayoutOutcome>(nothingRead);
  const [job, setJob] = useState<string | null>(null);
  const [pending, startTransition] = useTransition();
  useRefusedField(form, outcome);
  const view = useJob(job, (ended) => {
    setJob(null);
    if (ended?.state === "done") return router.push(`/import/${(ended.result as { import: string }).import}`);
    const problem = ended?.state === "cancelled" ? "Cancelled; the file is read as before." : (ended?.error ?? null);
    setOutcome({ ...nothingRead, problem: problem ?? "What became of it is not known. Look at the imports." });
  });
  const read = () =>
    startTransition(async () => {
      const answer = await askServer(
        () => readByLayout({ importId: props.importId, file: props.file, layout, name }),
        (problem) => ({ ...nothingRead, problem }),
      );
      setOutcome(answer);
      setJob(answer.job);
    });
  return (
    <form
      ref={form}
      className="house-form layout-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        read();
      }}
    >
      <ScriptedFields>
        <LayoutColumns layout={layout} shown={props.shown} problems={outcome.problems} onChange={setLayout} />
        <LayoutFileValues layout={layout} problems={outcome.problems} onChange={setLayout} />
        <LayoutName
          legend="Next time"
          label="Keep it by the name"
          description="Files with these headings are then read so by themselves; a unit, date or meter given for the whole file is asked for again. Empty: for this file alone."
          name={name}
          problem={outcome.problems["name"]}
          onChange={setName}
        />
        <LayoutProblems problems={outcome.problems} gaps={outcome.gaps} />
        {outcome.problem !== null && <ErrorNote happened={outcome.problem} kept="Nothing was taken in." />}
        {job !== null && <JobLine {...progressWords(view?.progress ?? null)} cancels={job} />}
        <div className="form-buttons">
          <Button type="submit" loading={pending || job !== null}>
            Read it so
          </Button>
          <p className="second">Shows what would come in; nothing counts before you import it.</p>
        </div>
      </ScriptedFields>
    </form>
  );
}

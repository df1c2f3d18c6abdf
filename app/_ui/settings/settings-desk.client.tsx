"use client";

import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import type { BandsPreview } from "../../_jobs/preview-bands.ts";
import { ErrorNote } from "../error-note.tsx";
import { callApi } from "../import/call-api.client.ts";
import { progressWords } from "../import/progress-words.ts";
import { useJob } from "../import/use-job.client.ts";
import { JobLine } from "./job-line.client.tsx";
import { PreviewSheet } from "./preview-sheet.client.tsx";
import { previewSettings, type SettingsOutcome, saveSettings } from "./settings-actions.ts";
import { changedFields } from "./settings-fields.ts";
import { SettingsFieldsets } from "./settings-fieldsets.client.tsx";
import type { SettingsFields } from "./settings-form.ts";

interface Asked {
  readonly changed: Partial<SettingsFields>;
  readonly version: number;
}

/**
 * The settings: fields, then what they would change, then the change itself. What was typed stays until it is in force.
 * `job`: a change of the settings that runs already.
 */
export function SettingsDesk(props: {
  /** The settings in force, and the version that they are of. */
  readonly fields: SettingsFields;
  readonly version: number;
  /** What a link from the history puts into the fields. */
  readonly proposed: Partial<SettingsFields>;
  readonly defaults: SettingsFields;
  readonly timeZones: readonly string[];
  readonly job: string | null;
}) {
  const router = useRouter();
  const [fields, setFields] = useState<SettingsFields>({ ...props.fields, ...props.proposed });
  const [told, setTold] = useState(props.fields);
  const [asked, setAsked] = useState<Asked | null>(null);
  const [outcome, setOutcome] = useState<SettingsOutcome | null>(null);
  const [running, setRunning] = useState({ job: props.job, kind: "settings" });
  const [preview, setPreview] = useState<BandsPreview | null>(null);
  const [ended, setEnded] = useState<{ readonly says: string; readonly failed: boolean } | null>(null);
  const [pending, startTransition] = useTransition();

  // What is in force changed: fields that nobody touched here follow it, the others stay as they were typed.
  if (JSON.stringify(told) !== JSON.stringify(props.fields)) {
    setFields({ ...props.fields, ...changedFields(fields, told) });
    setTold(props.fields);
  }

  const view = useJob(running.job, (end) => {
    setRunning({ ...running, job: null });
    if (end?.state === "done" && running.kind === "preview") return setPreview(end.result as BandsPreview);
    setEnded(endOf(running.kind, end));
    if (running.kind === "settings") {
      setAsked(null);
      // As it was typed is no matter any more: the fields follow what is in force.
      if (end?.state === "done") setTold(fields);
      router.replace("/settings");
      router.refresh();
    }
  });
  const begin = (what: typeof previewSettings, ask: Asked) =>
    startTransition(async () => {
      setEnded(null);
      setPreview(null);
      const answer = await what(ask.changed, ask.version);
      setOutcome(answer);
      setAsked(ask);
      if (answer.job !== null) setRunning({ job: answer.job, kind: answer.kind });
      if (answer.meanwhile !== null) router.refresh();
    });
  const change = (more: Partial<SettingsFields>) => {
    setFields({ ...fields, ...more });
    setPreview(null);
    setEnded(null);
  };
  const changed = changedFields(fields, props.fields);

  return (
    <div className="settings-desk">
      <form
        className="house-form"
        aria-busy={pending}
        onSubmit={(event) => {
          event.preventDefault();
          begin(previewSettings, { changed, version: props.version });
        }}
      >
        <SettingsFieldsets
          fields={fields}
          inForce={props.fields}
          defaults={props.defaults}
          timeZones={props.timeZones}
          problems={outcome?.problems ?? {}}
          busy={running.job !== null || pending}
          unchanged={Object.keys(changed).length === 0}
          onChange={change}
        />
      </form>
      {outcome?.problem && <ErrorNote happened={outcome.problem} kept="The settings are as they were." />}
      {outcome?.meanwhile && (
        <ErrorNote
          happened={`${outcome.meanwhile.by} changed settings while you wrote; nothing was saved over them.`}
          kept="The fields that you did not touch show what is in force now; yours stand as you typed them."
          todo="Look at them, and ask again."
        />
      )}
      {running.job !== null && (
        <JobLine
          {...progressWords(view?.progress ?? null, running.kind)}
          onCancel={() => void callApi("DELETE", `/api/jobs/${running.job}`)}
        />
      )}
      {ended !== null && (ended.failed ? <ErrorNote happened={ended.says} /> : <p role="status">{ended.says}</p>)}
      {preview !== null && asked !== null && (
        <PreviewSheet
          preview={preview}
          onSave={() => begin(saveSettings, asked)}
          onLeave={() => {
            setPreview(null);
            setFields(props.fields);
          }}
        />
      )}
    </div>
  );
}

function endOf(kind: string, end: { readonly state: string; readonly error: string | null } | null) {
  if (end === null)
    return {
      says: "What became of it is not known: the server was started anew. The history below tells.",
      failed: true,
    };
  if (end.state === "failed") return { says: end.error ?? "", failed: true };
  if (end.state === "done") return { says: "In force.", failed: false };
  return {
    says:
      kind === "preview"
        ? "Cancelled. Nothing was changed."
        : "Cancelled. The history below tells whether the settings are in force.",
    failed: false,
  };
}

"use client";

import { Button, NativeSelect, TextInput } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useRef, useState, useTransition } from "react";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { askServer } from "../ask-server.client.ts";
import { type Begun, notBegun } from "../asking/begun.ts";
import { JobLine } from "../asking/job-line.client.tsx";
import { RefusedFields } from "../asking/refused-fields.client.tsx";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { useUnkept } from "../asking/use-unkept.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { progressWords } from "../import/progress-words.ts";
import { useJob } from "../import/use-job.client.ts";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { askWhatIf, reckonWhatIf } from "./budget-actions.ts";
import { fieldsOf, type ScenarioForm, type ScenarioKind, scenarioKinds } from "./scenario-form.ts";

const kindNames: Readonly<Record<ScenarioKind, string>> = {
  postpone: "Postpone all repairs",
  capacity: "Cut what workshops have",
  limit: "Change a limit",
  use: "Run more or less",
  "run-to-limit": "No top end before its limit",
  exchange: "Buy exchange engines",
};

/** What a change leaves as it is, where its fields don't say so. */
const kindNotes: Readonly<Partial<Record<ScenarioKind, string>>> = {
  postpone: "Bookings, and what is not booked yet: it follows its limit by so much longer. Pinned repairs stay.",
  capacity:
    "So many of the working days are closed, whole days spread evenly over the weeks: jobs run on and last longer. What is not booked waits so many times as long; at 100 % nothing can be booked there.",
  "run-to-limit": "Pinned repairs stay, and those of units that are past their limit already.",
};

interface Field {
  readonly label: string;
  readonly description?: string;
}

const fields: Readonly<Partial<Record<keyof ScenarioForm, Field>>> = {
  months: { label: "By how many months" },
  percent: { label: "By how much, %" },
  by: { label: "By how much", description: "Points or kPa; with a minus for lower." },
  count: { label: "How many" },
  price: { label: "Price of one" },
  month: { label: "Paid in the month", description: "As 2026-10." },
};

/** Begins a job on the server; the page then follows it beside its what-if. */
function useReckoning() {
  const router = useRouter();
  const [begun, setBegun] = useState<Begun | null>(null);
  const [pending, startTransition] = useTransition();
  const begin = (ask: () => Promise<Begun>, onBegun?: () => void) =>
    startTransition(async () => {
      const answer = await askServer(ask, (problem) => ({ ...notBegun, problem }));
      setBegun(answer);
      // Also where it is kept and waits without a job.
      if (answer.kind !== "save") return;
      onBegun?.();
      router.refresh();
    });
  return { begun, pending, begin };
}

/** How far a what-if is that is being reckoned or waits for its turn, and the page anew once it is done. */
export function WhatIfJob({ job }: { readonly job: string }) {
  const router = useRouter();
  const view = useJob(job, () => router.refresh());
  return <JobLine {...progressWords(view?.progress ?? null, "what-if")} cancels={job} />;
}

/** Names a what-if and has it reckoned. */
export function WhatIfDesk(props: {
  readonly depots: readonly string[];
  readonly models: readonly string[];
  /** First month that may be paid in: "2026-10". */
  readonly month: string;
}) {
  const blank: ScenarioForm = {
    name: "",
    kind: "postpone",
    months: "3",
    percent: "10",
    depot: "",
    engineModel: props.models[0] ?? "",
    limit: "leak-down",
    by: "-3",
    count: "1",
    price: "",
    month: props.month,
  };
  const form = useRef<HTMLFormElement>(null);
  const [typed, setTyped] = useState(blank);
  const { begun, pending, begin } = useReckoning();
  useRefusedField(form, begun);
  useUnkept(typed.name !== "");
  const set = (part: Partial<ScenarioForm>) => setTyped((before) => ({ ...before, ...part }));
  const problem = (field: keyof ScenarioForm) => begun?.problems[field];
  const has = (field: keyof ScenarioForm) => fieldsOf[typed.kind].includes(field);
  return (
    <form
      ref={form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        begin(
          () => askWhatIf(typed),
          () => setTyped(blank),
        );
      }}
    >
      <ScriptedFields>
        <div className="what-if-form">
          <NativeSelect
            label="What if"
            value={typed.kind}
            onChange={(event) => set({ kind: event.currentTarget.value as ScenarioKind })}
            description={kindNotes[typed.kind]}
            data={scenarioKinds.map((value) => ({ value, label: kindNames[value] }))}
          />
          {has("engineModel") && (
            <NativeSelect
              label="Engine model"
              value={typed.engineModel}
              onChange={(event) => set({ engineModel: event.currentTarget.value })}
              data={[...props.models]}
              error={problem("engineModel")}
            />
          )}
          {has("limit") && (
            <NativeSelect
              label="Limit"
              value={typed.limit}
              onChange={(event) => set({ limit: event.currentTarget.value as ScenarioForm["limit"] })}
              data={[
                { value: "leak-down", label: "leakage, points" },
                { value: "compression", label: "minimum compression, kPa" },
              ]}
            />
          )}
          {has("depot") && (
            <NativeSelect
              label="Depot"
              value={typed.depot}
              onChange={(event) => set({ depot: event.currentTarget.value })}
              data={[{ value: "", label: "all depots" }, ...props.depots.map((value) => ({ value, label: value }))]}
            />
          )}
          {(["months", "percent", "by", "count", "price", "month"] as const)
            .filter((field) => has(field))
            .map((field) => (
              <TextInput
                key={field}
                {...fields[field]}
                inputMode={field === "month" ? "text" : "decimal"}
                value={typed[field]}
                onChange={(event) => set({ [field]: event.currentTarget.value })}
                error={problem(field)}
                maxLength={40}
              />
            ))}
          <TextInput
            label="Name"
            value={typed.name}
            onChange={(event) => set({ name: event.currentTarget.value })}
            error={problem("name")}
            maxLength={longestName}
            autoComplete="off"
          />
          <Button type="submit" loading={pending}>
            Reckon it
          </Button>
        </div>
        <RefusedFields problems={begun?.problems ?? {}} />
      </ScriptedFields>
      {begun?.problem && <ErrorNote happened={begun.problem} kept="Nothing was kept." />}
    </form>
  );
}

/** Has a what-if reckoned anew beside today's budget. */
export function ReckonAgain(props: { readonly id: number; readonly name: string }) {
  const { begun, pending, begin } = useReckoning();
  return (
    <div className="no-print">
      <Button
        variant="default"
        size="compact-sm"
        loading={pending}
        onClick={() => begin(() => reckonWhatIf(props.id))}
        aria-label={`Reckon “${props.name}” again`}
      >
        Reckon again
      </Button>
      {begun?.problem && <ErrorNote happened={begun.problem} />}
    </div>
  );
}

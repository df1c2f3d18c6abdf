"use client";

import { Textarea, TextInput } from "@mantine/core";
import { useRef, useState } from "react";
import { answerWords, setUpQuestions } from "../../../lib/test-entry/set-up.ts";
import type { SheetFacts } from "../../../lib/test-entry/sheet-facts.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { decimalSignOf } from "../figures.ts";
import { useFormats } from "../formats.client.tsx";
import { type DeviceDraft, earlierField, type FieldName, notKeptWords, type Step, sendable } from "./device-draft.ts";
import { ReadingsList } from "./readings-list.client.tsx";
import { TapFigure } from "./tap-figure.client.tsx";
import type { Change } from "./test-desk.client.tsx";

/** The last step: meter, day and notes, what was entered once more, and the sending. */
export function EndStep(props: {
  readonly draft: DeviceDraft;
  readonly facts: SheetFacts;
  /** The last day that a test may carry. */
  readonly latest: string;
  readonly change: Change;
  readonly onBack: () => void;
  /** Leads to an earlier step, where something is to be put right. */
  readonly onRefused: (step: Step) => void;
  readonly onSend: () => void;
}) {
  const { draft, facts, change } = props;
  const f = useFormats();
  const [answer, setAnswer] = useState<{ readonly problems: FieldProblems } | null>(null);
  const form = useRef<HTMLFormElement>(null);
  useRefusedField(form, answer);
  const problems = answer?.problems ?? {};
  const { fields, setUp } = draft;
  const put = (name: FieldName, value: string) => {
    setAnswer(null);
    change((d) => ({ ...d, refusal: null, fields: { ...d.fields, [name]: value } }));
  };
  const others = Object.entries(problems).filter(([name]) => !["meter", "date", "remarks", "typing"].includes(name));
  // Said before anybody presses: a figure that is typed looks taken.
  const waiting = notKeptWords(draft);
  return (
    <form
      ref={form}
      className="entry"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        const read = sendable(draft, decimalSignOf(f.preferences.numbers));
        if ("problems" in read) return setAnswer(read);
        props.onSend();
      }}
    >
      {draft.refusal !== null && (
        <ErrorNote
          happened={draft.refusal}
          kept="The test is on this device as you entered it."
          todo="Put it right here, or go back to the step it belongs to, and send it again."
        >
          <button type="button" className="tap" onClick={() => props.onRefused("set-up")}>
            Back to the set-up
          </button>
        </ErrorNote>
      )}
      <div className="tap-fields">
        <TapFigure
          label={`Meter, ${draft.meterUnit}`}
          description={`As the meter shows it; about ${f.number(Number(figureOfMeter(facts.meter.value)))} ${draft.meterUnit} by its use.`}
          value={fields.meter}
          error={problems["meter"]}
          onFigure={(typed) => put("meter", typed)}
        />
        <TextInput
          className="tap-field"
          type="date"
          label="Day of the test"
          description=" "
          max={props.latest}
          value={fields.date}
          error={problems["date"]}
          onChange={({ currentTarget: { value } }) => put("date", value)}
        />
      </div>
      <Textarea
        className="tap-field"
        label="Notes of the whole test"
        error={problems["remarks"]}
        autosize
        minRows={2}
        maxLength={1000}
        value={fields.remarks}
        onChange={({ currentTarget: { value } }) => put("remarks", value)}
      />
      <dl className="set-up-told">
        {setUpQuestions(draft.test, { fuel: facts.fuel ?? undefined }).map(({ id, asks }) => (
          <div key={id}>
            <dt>{asks}</dt>
            <dd>{answerWords(setUp[id])}</dd>
          </div>
        ))}
      </dl>
      <ReadingsList draft={draft} />
      {waiting !== null && <ErrorNote happened={waiting} kept="What you typed is on this device." />}
      {others.map(([name, words]) => (
        <Elsewhere key={name} name={name} words={words} onRefused={props.onRefused} />
      ))}
      <div className="tap-foot">
        <button type="submit" className="tap" data-variant="filled">
          Send test
        </button>
        <button type="button" className="tap" onClick={props.onBack}>
          Back to the cylinders
        </button>
      </div>
    </form>
  );
}

/** What was refused in an earlier step, named, with the way to it. */
function Elsewhere(props: { readonly name: string; readonly words: string; readonly onRefused: (step: Step) => void }) {
  const field = earlierField(props.name);
  const happened = field === undefined ? props.words : `${field.label}: ${props.words}`;
  return (
    <ErrorNote happened={happened} kept="The test is on this device as you entered it.">
      {field !== undefined && (
        <button type="button" className="tap" onClick={() => props.onRefused(field.step)}>
          Put it right in the {field.step}
        </button>
      )}
    </ErrorNote>
  );
}

/** Without a sign between thousands, as it has to be typed. */
const figureOfMeter = (value: number): string => String(Math.round(value));

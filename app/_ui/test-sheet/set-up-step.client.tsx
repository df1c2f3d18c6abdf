"use client";

import { NativeSelect, TextInput } from "@mantine/core";
import { Fragment, type ReactNode, useId, useRef, useState } from "react";
import { pressureUnits, type ValueUnit, valueUnits } from "../../../lib/schema/words.ts";
import { setUpQuestions } from "../../../lib/test-entry/set-up.ts";
import type { MeasureFacts, SheetFacts } from "../../../lib/test-entry/sheet-facts.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { decimalSignOf } from "../figures.ts";
import { useFormats } from "../formats.client.tsx";
import { ChoiceButtons } from "./choice-buttons.client.tsx";
import { type DeviceDraft, type FieldName, leftUnconfirmed, setUpProblems } from "./device-draft.ts";
import type { Change } from "./test-desk.client.tsx";

const yesOrNo = [
  ["yes", "Yes"],
  ["no", "No"],
] as const;

/** The first step: the set-up with its cautions, and what the readings are read on. */
export function SetUpStep(props: {
  readonly draft: DeviceDraft;
  readonly facts: SheetFacts;
  readonly of: MeasureFacts;
  readonly cautions: ReactNode;
  readonly change: Change;
  /** The last step led here, for something is to be put right: it is marked at once. */
  readonly isRefused: boolean;
  readonly onNext: () => void;
}) {
  const { draft, facts, of, change } = props;
  const sign = decimalSignOf(useFormats().preferences.numbers);
  const read = () => ({ problems: setUpProblems(draft, sign) });
  const [answer, setAnswer] = useState<{ readonly problems: FieldProblems } | null>(props.isRefused ? read : null);
  const form = useRef<HTMLFormElement>(null);
  useRefusedField(form, answer);
  const problems = answer?.problems ?? {};
  const instruments = useId();
  const questions = setUpQuestions(draft.test, { fuel: facts.fuel ?? undefined });
  const skipped = questions.filter(({ id }) => draft.setUp[id] === null).length;
  const isLeakDown = draft.test === "leak-down";
  const lastSupply = of.lastHeld?.valueUnit === draft.valueUnit ? of.lastHeld.supply : null;
  const field = (name: FieldName, label: string, description: string) => (
    <TextInput
      className="tap-field"
      label={label}
      description={description}
      inputMode={name === "instrument" || name === "testedBy" ? "text" : "decimal"}
      maxLength={200}
      {...(name === "instrument" ? { list: instruments } : {})}
      value={draft.fields[name]}
      error={problems[name]}
      onChange={({ currentTarget: { value } }) => {
        setAnswer(null);
        change((d) => ({ ...d, fields: { ...d.fields, [name]: value } }));
      }}
    />
  );
  return (
    <form
      ref={form}
      className="entry"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        const now = read();
        if (Object.keys(now.problems).length > 0) return setAnswer(now);
        props.onNext();
      }}
    >
      {props.cautions}
      <div className="choices">
        {questions.map((question) => {
          const { id, asks, why, stop } = question;
          const told = draft.setUp[id];
          const tell = (by: (d: DeviceDraft) => DeviceDraft) => {
            setAnswer(null);
            change(by);
          };
          return (
            <Fragment key={id}>
              <ChoiceButtons
                asks={asks}
                why={why}
                choices={yesOrNo}
                chosen={told === null ? [] : [told ? "yes" : "no"]}
                onPress={(choice) => {
                  const pressed = choice === "yes";
                  tell((d) => ({ ...d, setUp: { ...d.setUp, [id]: d.setUp[id] === pressed ? null : pressed } }));
                }}
              />
              {stop !== undefined && told === false && (
                <Stop
                  asks={asks}
                  stop={stop}
                  problem={problems[id]}
                  onLeft={() => tell((d) => leftUnconfirmed(d, question))}
                />
              )}
            </Fragment>
          );
        })}
      </div>
      <div className="tap-fields">
        <NativeSelect
          className="tap-field"
          label={isLeakDown ? "The tester shows" : "The gauge reads in"}
          description="Each figure is kept in the unit shown here."
          data={(isLeakDown ? valueUnits : pressureUnits).map((unit) => ({
            value: unit,
            label: shownAs(unit, isLeakDown),
          }))}
          value={draft.valueUnit}
          disabled={draft.readings.length > 0}
          onChange={({ currentTarget: { value } }) => {
            setAnswer(null);
            // The choices are units.
            change((d) => ({ ...d, valueUnit: value as ValueUnit }));
          }}
        />
        {isLeakDown &&
          field(
            "supply",
            `Supply, ${draft.valueUnit === "%" ? "kPa" : draft.valueUnit}`,
            draft.valueUnit === "%"
              ? "Regulated pressure; blank: not recorded."
              : `Regulated pressure that it is held of${lastSupply === null ? "" : `; the last time ${lastSupply}`}.`,
          )}
        {isLeakDown &&
          field("orificeMm", "Restrictor bore, mm", "Of this tester; the model’s usual one is written in.")}
        {!isLeakDown && field("crankingRpm", "Cranking speed, 1/min", "Blank: not recorded.")}
        {field("instrument", isLeakDown ? "Tester" : "Gauge", "Its name or number; blank: not recorded.")}
        {field("testedBy", "Tested by", "")}
      </div>
      {/* One tester under two spellings would be two testers. */}
      <datalist id={instruments}>
        {of.instruments.map((instrument) => (
          <option key={instrument} value={instrument} />
        ))}
      </datalist>
      {draft.readings.length > 0 && (
        <p className="second">The unit stays as it is: readings are kept in it. Take them away to change it.</p>
      )}
      <div className="tap-foot">
        <button type="submit" className="tap" data-variant="filled">
          To the cylinders
        </button>
        <p className="second" role="status">
          {skipped === 0 ? "All is answered." : `${skipped} not answered: recorded as not confirmed.`}
        </p>
      </div>
    </form>
  );
}

/** Said loudly below an answer that may cost a hand. Reading aloud begins as it appears. */
function Stop(props: {
  readonly asks: string;
  readonly stop: string;
  /** Why the step could not be left; undefined: nobody tried. */
  readonly problem: string | undefined;
  readonly onLeft: () => void;
}) {
  const box = useRef<HTMLDivElement>(null);
  return (
    <div ref={box} className="caution stop" role="alert" tabIndex={-1} data-refused={props.problem !== undefined}>
      <p>
        <strong>Stop.</strong> {props.stop}
      </p>
      {props.problem !== undefined && (
        <p>
          <strong>{props.problem}</strong>
        </p>
      )}
      <button
        type="button"
        className="tap"
        onClick={() => {
          // This button goes with the box: the keyboard goes back to the question above it.
          box.current?.previousElementSibling?.querySelector("button")?.focus();
          props.onLeft();
        }}
      >
        Leave it not confirmed<span className="visually-hidden"> ({props.asks})</span>
      </button>
    </div>
  );
}

const shownAs = (unit: ValueUnit, isLeakDown: boolean): string =>
  unit === "%" ? "% lost" : isLeakDown ? `${unit} held` : unit;

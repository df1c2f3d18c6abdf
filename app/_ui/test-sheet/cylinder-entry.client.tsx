"use client";

import { Textarea } from "@mantine/core";
import { type FormEvent, useEffect, useRef, useState } from "react";
import { type Place, places } from "../../../lib/schema/words.ts";
import type { Entry } from "../../../lib/test-entry/entry.ts";
import { entryWords, severityOf } from "../../../lib/test-entry/entry-words.ts";
import { judgeEntry } from "../../../lib/test-entry/judge-entry.ts";
import type { CylinderFacts, MeasureFacts } from "../../../lib/test-entry/sheet-facts.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { decimalSignOf } from "../figures.ts";
import { useFormats } from "../formats.client.tsx";
import { decimalsOf } from "../unit/set-up-words.ts";
import { ChoiceButtons } from "./choice-buttons.client.tsx";
import { type DeviceDraft, entryTyped, termsOf, withReading } from "./device-draft.ts";
import { TapFigure } from "./tap-figure.client.tsx";
import type { Change } from "./test-desk.client.tsx";
import { cylinderWords, heardWords, lostWords } from "./test-words.ts";

const nothing: FieldProblems = {};
const heardChoices = places.map((place) => [place, heardWords(place)] as const);

/** One reading: typed, set against what is known of the cylinder, asked about where it is strange, and kept. */
export function CylinderEntry(props: {
  readonly draft: DeviceDraft;
  readonly of: MeasureFacts;
  readonly facts: CylinderFacts;
  readonly change: Change;
  /** A reading was kept; what there is to say of it. */
  readonly onKept: (words: string) => void;
}) {
  const { draft, of, facts, change } = props;
  const f = useFormats();
  const sign = decimalSignOf(f.preferences.numbers);
  const [problems, setProblems] = useState(nothing);
  const value = useRef<HTMLInputElement>(null);
  const asking = useRef<HTMLDivElement>(null);
  const { typing, valueUnit } = draft;
  const isLeakDown = draft.test === "leak-down";
  const count = draft.readings.filter(({ cylinder }) => cylinder === facts.cylinder).length;

  useEffect(() => value.current?.focus(), []);
  useEffect(() => {
    if (typing.isAsked) asking.current?.focus();
  }, [typing.isAsked]);

  const terms = termsOf(draft, sign);
  const judged = (entry: Entry) => {
    const found = judgeEntry(entry, { terms, facts: of, before: draft.readings });
    const saying = (severity: ReturnType<typeof severityOf>) =>
      found.filter((one) => severityOf(one) === severity).map((one) => entryWords(one, terms));
    return { refused: saying("refused"), asked: saying("asked"), told: saying("told") };
  };
  const read = entryTyped(draft, sign);
  const lost = lostWords("entry" in read ? read.entry.value : null, terms, f);
  const questions = typing.isAsked && "entry" in read ? judged(read.entry).asked : [];

  const type = (more: Partial<DeviceDraft["typing"]>) => {
    setProblems(nothing);
    change((d) => ({ ...d, typing: { ...d.typing, isAsked: false, ...more } }));
  };
  const keep = (
    entry: Entry,
    { asked, told }: { readonly asked: readonly string[]; readonly told: readonly string[] },
  ) => {
    change((d) => withReading(d, entry, asked));
    const kept = `Cylinder ${entry.cylinder}: ${f.number(entry.value, decimalsOf(entry.value))} ${valueUnit}, on this device.`;
    props.onKept([kept, ...told.map((words) => f.words(words))].join(" "));
  };
  const take = (event: FormEvent) => {
    event.preventDefault();
    if ("problems" in read) {
      setProblems(read.problems);
      return value.current?.focus();
    }
    const { refused, asked, told } = judged(read.entry);
    if (refused.length > 0) {
      setProblems({ value: [...refused, ...asked].map((words) => f.words(words)).join(" ") });
      return value.current?.focus();
    }
    if (asked.length === 0) return keep(read.entry, { asked, told });
    change((d) => ({ ...d, typing: { ...d.typing, isAsked: true } }));
  };
  const tapHeard = (place: Place) => {
    const without = typing.heardAt.filter((each) => each !== place);
    const isOff = without.length < typing.heardAt.length;
    if (isOff) return change((d) => ({ ...d, typing: { ...d.typing, heardAt: without } }));
    const heardAt = place === "none" ? [place] : [...without.filter((each) => each !== "none"), place];
    change((d) => ({ ...d, typing: { ...d.typing, heardAt } }));
  };

  return (
    <form className="entry" onSubmit={take} noValidate aria-label={`Cylinder ${facts.cylinder}`}>
      <h3>
        Cylinder {facts.cylinder}
        {count > 0 && <span className="second">, reading {count + 1}: of several the last counts</span>}
      </h3>
      <p className="second">{cylinderWords(facts, { terms, of }, f)}</p>
      <div className="entry-values">
        <TapFigure
          ref={value}
          className="entry-value"
          label={`${isLeakDown ? (valueUnit === "%" ? "Lost" : "Held") : "Final reading"}, ${valueUnit}`}
          {...(lost === null ? {} : { description: lost })}
          value={typing.value}
          error={problems["value"]}
          onFigure={(typed) => type({ value: typed })}
        />
        {!isLeakDown && (
          <TapFigure
            label={`First stroke, ${valueUnit}`}
            value={typing.firstStroke}
            error={problems["firstStroke"]}
            onFigure={(typed) => type({ firstStroke: typed })}
          />
        )}
      </div>
      {isLeakDown && (
        <ChoiceButtons
          asks="Where is air heard?"
          why="Tap all that hold; none tapped: not recorded."
          choices={heardChoices}
          chosen={typing.heardAt}
          onPress={tapHeard}
        />
      )}
      <Textarea
        className="tap-field"
        label="Note"
        autosize
        minRows={1}
        maxLength={1000}
        value={typing.remarks}
        onChange={({ currentTarget: { value: remarks } }) =>
          change((d) => ({ ...d, typing: { ...d.typing, remarks } }))
        }
      />
      {questions.length > 0 && "entry" in read ? (
        <div className="entry-asks" ref={asking} tabIndex={-1} role="alert">
          {questions.map((words) => (
            <p key={words}>
              <strong>{f.words(words)}</strong>
            </p>
          ))}
          <div className="tap-foot">
            <button
              type="button"
              className="tap"
              data-variant="filled"
              onClick={() => {
                type({ value: "", firstStroke: "" });
                value.current?.focus();
              }}
            >
              Measure again
            </button>
            <button
              type="button"
              className="tap"
              onClick={() => keep(read.entry, { asked: questions, told: judged(read.entry).told })}
            >
              It reads so: keep it
            </button>
          </div>
        </div>
      ) : (
        <button type="submit" className="tap" data-variant="filled">
          Keep this reading
        </button>
      )}
    </form>
  );
}

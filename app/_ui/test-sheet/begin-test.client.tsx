"use client";

import type { Measure } from "../../../lib/schema/words.ts";
import type { MeasureFacts, SheetFacts } from "../../../lib/test-entry/sheet-facts.ts";
import { useFormats } from "../formats.client.tsx";
import { measureTitles } from "../unit/unit-words.ts";
import type { DeviceDraft } from "./device-draft.ts";

const says = {
  "leak-down": "What share of the test air each cylinder loses, and where it is heard.",
  "compression-dry": "What each cylinder presses while the starter turns the engine.",
  "compression-wet": "The same with some 15 ml of oil in a low cylinder: does it rise?",
} as const satisfies Record<Measure, string>;

/** The kinds of test that may be begun, and the sheets of this unit that were begun and not sent. */
export function BeginTest(props: {
  readonly facts: SheetFacts;
  readonly unfinished: readonly DeviceDraft[];
  readonly onBegin: (of: MeasureFacts) => void;
  readonly onChoose: (id: string) => void;
}) {
  const { facts, unfinished } = props;
  const f = useFormats();
  return (
    <section className="sheet" aria-labelledby="begin-test">
      <div className="sheet-head">
        <h2 id="begin-test">{unfinished.length === 0 ? "Which test?" : "Go on, or begin another"}</h2>
      </div>
      <ul className="tap-list">
        {unfinished.map((draft) => (
          <li key={draft.id}>
            <button type="button" className="tap" data-variant="filled" onClick={() => props.onChoose(draft.id)}>
              Go on: {measureTitles[draft.test].toLowerCase()} of {f.date(draft.fields.date)}
            </button>
            <span className="second">{draft.sending === "no" ? "not finished" : "waits to be sent"}</span>
          </li>
        ))}
        {facts.tests.map((of) => (
          <li key={of.test}>
            <button type="button" className="tap" onClick={() => props.onBegin(of)}>
              {measureTitles[of.test]}
            </button>
            <span className="second">
              {says[of.test]}
              {of.test === "compression-wet" &&
                facts.fuel !== "petrol" &&
                " Never on a diesel unless its manual says so: oil can lock it."}
            </span>
          </li>
        ))}
      </ul>
      {!facts.tests.some(({ test }) => test === "compression-wet") && (
        <p className="second">No wet test: oil can lock a diesel. Its engine model says where its maker allows it.</p>
      )}
    </section>
  );
}

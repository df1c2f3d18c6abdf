"use client";

import { useEffect, useRef, useState } from "react";
import type { MeasureFacts } from "../../../lib/test-entry/sheet-facts.ts";
import { useFormats } from "../formats.client.tsx";
import { decimalsOf } from "../unit/set-up-words.ts";
import { CylinderEntry } from "./cylinder-entry.client.tsx";
import { atCylinder, type DeviceDraft, notKept, takesMore } from "./device-draft.ts";
import { ReadingsList } from "./readings-list.client.tsx";
import type { Change } from "./test-desk.client.tsx";

/** The second step: the cylinders in the order that the mechanic chooses. */
export function CylindersStep(props: {
  readonly draft: DeviceDraft;
  readonly of: MeasureFacts;
  readonly change: Change;
  readonly onBack: () => void;
  readonly onNext: () => void;
}) {
  const { draft, of, change } = props;
  const f = useFormats();
  const [told, setTold] = useState<{ readonly words: string } | null>(null);
  const status = useRef<HTMLParagraphElement>(null);
  // What was pressed is gone with the form that it stood in.
  useEffect(() => {
    if (told !== null) status.current?.focus();
  }, [told]);
  const chosen = of.byCylinder.find(({ cylinder }) => cylinder === draft.typing.cylinder);
  const measured = (cylinder: number) => draft.readings.findLast((reading) => reading.cylinder === cylinder);
  const waiting = notKept(draft);
  const missing = of.byCylinder.filter(({ cylinder }) => measured(cylinder) === undefined).length;
  return (
    <>
      <fieldset aria-label="Cylinder to measure" className="tap-grid">
        {of.byCylinder.map(({ cylinder }) => {
          const last = measured(cylinder);
          const isWaiting = cylinder !== draft.typing.cylinder && waiting.some((each) => each.cylinder === cylinder);
          return (
            <button
              key={cylinder}
              type="button"
              className="tap tap-cylinder"
              aria-pressed={draft.typing.cylinder === cylinder}
              data-done={last !== undefined}
              disabled={!takesMore(draft, cylinder)}
              onClick={() => {
                setTold(null);
                change((d) => atCylinder(d, d.typing.cylinder === cylinder ? null : cylinder));
              }}
            >
              <span>
                <span className="visually-hidden">Cylinder </span>
                {cylinder}
              </span>
              <span className="tap-small">
                {isWaiting ? "not kept" : last === undefined ? "–" : f.number(last.value, decimalsOf(last.value))}
              </span>
            </button>
          );
        })}
      </fieldset>
      <p ref={status} tabIndex={-1} role="status" className="tap-told">
        {told !== null
          ? told.words
          : chosen === undefined
            ? "Tap the cylinder that you measure, in whatever order."
            : ""}
      </p>
      {chosen !== undefined && (
        <CylinderEntry
          key={chosen.cylinder}
          draft={draft}
          of={of}
          facts={chosen}
          change={change}
          onKept={(words) => setTold({ words })}
        />
      )}
      {draft.readings.length > 0 && <ReadingsList draft={draft} change={change} />}
      <div className="tap-foot">
        <button
          type="button"
          className="tap"
          data-variant="filled"
          onClick={props.onNext}
          disabled={draft.readings.length === 0}
        >
          To the end
        </button>
        <button type="button" className="tap" onClick={props.onBack}>
          Back to the set-up
        </button>
        <p className="second">
          {missing === 0
            ? "All cylinders are measured. Measure the first again as a check."
            : `${f.number(missing)} not measured yet; a cylinder that is left out stays not measured.`}
        </p>
      </div>
    </>
  );
}

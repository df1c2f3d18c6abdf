"use client";

import { useFormats } from "../formats.client.tsx";
import { decimalsOf } from "../unit/set-up-words.ts";
import { placeWords } from "../unit/unit-words.ts";
import { type DeviceDraft, withoutReading } from "./device-draft.ts";
import type { Change } from "./test-desk.client.tsx";

/** The readings that the sheet holds, in the order in which they were taken; without `change` they are only told. */
export function ReadingsList({ draft, change }: { readonly draft: DeviceDraft; readonly change?: Change }) {
  const f = useFormats();
  const { readings, valueUnit, fields } = draft;
  const supply = draft.test === "leak-down" && valueUnit !== "%" ? fields.supply.trim() : "";
  const later = (place: number) =>
    readings.slice(place + 1).some(({ cylinder }) => cylinder === readings[place]?.cylinder);
  return (
    <ol className="readings" aria-label="Readings in the order of testing">
      {readings.map((reading, place) => {
        const { cylinder, value, firstStroke, heardAt, remarks, asked } = reading;
        const details = [
          firstStroke === null ? null : `first stroke ${f.number(firstStroke, decimalsOf(firstStroke))}`,
          heardAt.length === 0 ? null : `heard: ${heardAt.map((each) => placeWords[each]).join(", ")}`,
          later(place) ? "measured again since: the later reading counts" : null,
          asked.length === 0 ? null : "asked about, kept as read",
          remarks,
        ].filter((words) => words !== null);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: its place in the order is what a reading is known by.
          <li key={place}>
            <div>
              <strong>Cylinder {cylinder}</strong> {f.number(value, decimalsOf(value))} {valueUnit}
              {supply !== "" && ` of ${supply}`}
              {details.length > 0 && <div className="second">{details.join("; ")}</div>}
            </div>
            {change !== undefined && (
              <button type="button" className="tap" onClick={() => change((d) => withoutReading(d, place))}>
                Take away
                <span className="visually-hidden">
                  {" "}
                  reading {place + 1}, cylinder {cylinder}
                </span>
              </button>
            )}
          </li>
        );
      })}
    </ol>
  );
}

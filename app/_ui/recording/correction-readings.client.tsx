"use client";

import { Button, Checkbox, NativeSelect, TextInput } from "@mantine/core";
import { places, pressureUnits, valueUnits } from "../../../lib/schema/words.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { placeWords } from "../unit/unit-words.ts";
import { type CorrectionFields, fromOtherEnd, type ReadingFields, readInUnit } from "./correction-fields.ts";
import type { FormState } from "./typed-field.client.tsx";

/** The readings of a test that is corrected, each with all that is told of it, and what is wrong with all at once. */
export function CorrectionReadings(props: { readonly of: FormState<CorrectionFields>; readonly cylinders: number }) {
  const { of, cylinders } = props;
  const { readings, asTest } = of.fields;
  const isLeakDown = asTest === "leak-down";
  const units = isLeakDown ? valueUnits : pressureUnits;
  return (
    <fieldset>
      <legend>Readings</legend>
      <div className="form-buttons">
        {cylinders > 1 && (
          <Button
            type="button"
            variant="default"
            onClick={() => of.set({ readings: fromOtherEnd(readings, cylinders) })}
          >
            Count cylinders from the other end
          </Button>
        )}
        {units.map((unit) => (
          <Button
            key={unit}
            type="button"
            variant="default"
            aria-label={`Read all in ${unit}, the figures as they are`}
            onClick={() => of.set({ readings: readInUnit(readings, unit) })}
          >
            All in {unit}
          </Button>
        ))}
      </div>
      <p className="second">No button converts a figure: it was read right, and its unit or cylinder written wrong.</p>
      <ul className="form-list">
        {readings.map((reading, place) => (
          <Reading
            // By place: its cylinder is what may be wrong.
            // biome-ignore lint/suspicious/noArrayIndexKey: readings neither come nor go here.
            key={place}
            reading={reading}
            place={place}
            isLeakDown={isLeakDown}
            problems={of.problems}
            onChange={(more) =>
              of.set({ readings: readings.map((one, i) => (i === place ? { ...one, ...more } : one)) })
            }
          />
        ))}
      </ul>
    </fieldset>
  );
}

function Reading(props: {
  readonly reading: ReadingFields;
  readonly place: number;
  readonly isLeakDown: boolean;
  readonly problems: FieldProblems;
  readonly onChange: (more: Partial<ReadingFields>) => void;
}) {
  const { reading, place, isLeakDown, problems, onChange } = props;
  const units = isLeakDown ? valueUnits : pressureUnits;
  const nth = `Reading ${place + 1}`;
  const text = (name: "cylinder" | "value" | "supply" | "firstStroke" | "order" | "remarks", label: string) => (
    <TextInput
      label={label}
      aria-label={`${nth}: ${label}`}
      inputMode={name === "remarks" ? "text" : "decimal"}
      autoComplete="off"
      value={reading[name]}
      error={problems[`readings.${place}.${name}`]}
      onChange={(event) => onChange({ [name]: event.currentTarget.value })}
    />
  );
  return (
    <li>
      <fieldset className="record-finding">
        <legend>{nth}</legend>
        <div className="field-row reading-row">
          {text("cylinder", "Cylinder")}
          {text("value", "Value")}
          <NativeSelect
            label="In"
            aria-label={`${nth}: unit`}
            // A unit that the kind of test does not have stays to be seen, and is refused.
            data={[...new Set([...units, reading.valueUnit])]}
            value={reading.valueUnit}
            error={problems[`readings.${place}.valueUnit`]}
            onChange={(event) =>
              // The choices are units.
              onChange({ valueUnit: event.currentTarget.value as ReadingFields["valueUnit"] })
            }
          />
          {isLeakDown
            ? text("supply", `Supply, ${reading.valueUnit === "%" ? "kPa" : reading.valueUnit}`)
            : text("firstStroke", `First stroke, ${reading.valueUnit}`)}
          {text("order", "Place in the order")}
          <div className="reading-remarks">{text("remarks", "Remarks")}</div>
        </div>
        {isLeakDown && (
          <div className="record-causes">
            <span className="record-label">Air heard at</span>
            {places.map((at) => (
              <Checkbox
                key={at}
                label={placeWords[at]}
                aria-label={`${nth}: air heard ${at === "none" ? "nowhere" : `at ${placeWords[at]}`}`}
                checked={reading.heardAt.includes(at)}
                onChange={(event) => onChange({ heardAt: heardWith(reading.heardAt, at, event.currentTarget.checked) })}
              />
            ))}
          </div>
        )}
      </fieldset>
    </li>
  );
}

/** Nowhere stands alone. */
function heardWith(heard: ReadingFields["heardAt"], at: ReadingFields["heardAt"][number], isOn: boolean) {
  const others = heard.filter((each) => each !== at && (at !== "none" || !isOn) && (each !== "none" || !isOn));
  return isOn ? [...others, at] : others;
}

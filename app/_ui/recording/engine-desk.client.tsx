"use client";

import { recordAddress } from "./address.ts";
import type { EngineFields } from "./engine-form.ts";
import { RecordDesk } from "./record-desk.client.tsx";
import { Choice, Day, Figure, Words } from "./typed-field.client.tsx";
import { WhatItTook } from "./what-it-took.client.tsx";

/** An engine that comes in, the one that goes out, and the other unit where it came out of one. */
export function EngineDesk(props: {
  readonly unit: string;
  readonly meterUnit: string;
  readonly today: string;
  readonly latest: string;
  /** Serial number of the engine now in the unit; null: no record names it. */
  readonly serial: string | null;
}) {
  const { unit, serial } = props;
  const blank: EngineFields = {
    what: "engine",
    date: props.today,
    meter: "",
    serial: "",
    outSerial: "",
    from: "store",
    otherUnit: "",
    otherMeter: "",
    otherGets: "exchanged",
    otherSerial: "",
    cost: "",
    labourHours: "",
    downtimeDays: "",
    remarks: "",
  };
  return (
    <RecordDesk unit={unit} blank={blank} address={recordAddress(unit, "engine")}>
      {(of) => (
        <>
          <fieldset>
            <legend>The swap</legend>
            <div className="field-row">
              <Day of={of} name="date" label="Day" latest={props.latest} />
              <Figure of={of} name="meter" label={`Meter of ${unit}, ${props.meterUnit}`} />
              <Choice
                of={of}
                name="from"
                label="The engine comes"
                options={[
                  { value: "store", label: "new, or from the store" },
                  { value: "unit", label: "out of another unit" },
                ]}
              />
            </div>
            <div className="field-row">
              <Words
                of={of}
                name="serial"
                label="Number of the engine that comes in"
                help={
                  of.fields.from === "unit"
                    ? "Leave it empty where the records name the other unit’s engine."
                    : "Empty: not known; then it begins a life of its own."
                }
              />
              {serial === null ? (
                <Words
                  of={of}
                  name="outSerial"
                  label="Number of the engine that goes out"
                  help="No record names it yet. Without it nobody can follow its wear."
                />
              ) : (
                <p className="record-goes-out">
                  <span className="record-label">Goes out</span>
                  {serial}; its history stays with its number.
                </p>
              )}
            </div>
          </fieldset>
          {of.fields.from === "unit" && (
            <fieldset>
              <legend>The other unit</legend>
              <div className="field-row">
                <Words of={of} name="otherUnit" label="Unit" />
                <Figure of={of} name="otherMeter" label="Its meter on that day" />
                <Choice
                  of={of}
                  name="otherGets"
                  label="It gets"
                  options={[
                    { value: "exchanged", label: `the engine out of ${unit}` },
                    { value: "another", label: "another engine" },
                    { value: "nothing", label: "none yet, or one not known" },
                  ]}
                />
                {of.fields.otherGets === "another" && (
                  <Words of={of} name="otherSerial" label="Number of that engine" />
                )}
              </div>
            </fieldset>
          )}
          <WhatItTook of={of} />
        </>
      )}
    </RecordDesk>
  );
}

"use client";

import { causeLabel } from "../../../lib/cause/words.ts";
import { type Cause, checkKinds, checkResults, type UnitStatus, unitStatuses } from "../../../lib/schema/words.ts";
import { checkWords, sentenceWords } from "../../../lib/wording.ts";
import { recordAddress } from "./address.ts";
import type { CheckFields } from "./check-form.ts";
import { findable } from "./choices.ts";
import type { DisposalFields } from "./disposal-form.ts";
import type { MeterFields, NewMeterFields } from "./meter-form.ts";
import { RecordDesk } from "./record-desk.client.tsx";
import type { StatusFields } from "./status-form.ts";
import { Choice, Day, Figure, optionsOf, Words } from "./typed-field.client.tsx";

interface Desk {
  readonly unit: string;
  readonly cylinders: number;
  readonly meterUnit: string;
  readonly today: string;
  readonly latest: string;
}

const labelled = <W extends string>(words: readonly W[], label: (word: W) => string) =>
  Object.fromEntries(words.map((word) => [word, label(word)])) as Record<W, string>;

const checkLabels = labelled(checkKinds, (check) => sentenceWords(checkWords[check]));
const causeLabels = labelled(findable, (cause: Cause) => causeLabel(cause));
const resultLabels = { clear: "Clear: nothing wrong", suspect: "Suspect: not sure", fault: "Fault" } as const;

/** Other evidence: what was seen, measured or smelt beside the tests. */
export function CheckDesk({ unit, cylinders, meterUnit, today, latest }: Desk) {
  const blank: CheckFields = {
    what: "check",
    date: today,
    meter: "",
    cylinder: "",
    check: "",
    result: "",
    value: "",
    valueUnit: "",
    cause: "",
    remarks: "",
  };
  const all = Array.from({ length: cylinders }, (_, i) => String(i + 1));
  return (
    <RecordDesk unit={unit} blank={blank} address={recordAddress(unit, "check")}>
      {(of) => (
        <fieldset>
          <legend>What was checked, and what it showed</legend>
          <div className="field-row">
            <Choice of={of} name="check" label="Check" options={optionsOf(checkKinds, checkLabels)} />
            <Choice
              of={of}
              name="cylinder"
              label="Cylinder"
              options={optionsOf(
                all,
                labelled(all, (n) => n),
                "the engine",
              )}
            />
            <Choice of={of} name="result" label="Result" options={optionsOf(checkResults, resultLabels)} />
            <Choice
              of={of}
              name="cause"
              label="What the fault is"
              options={optionsOf(findable, causeLabels, "not told")}
            />
          </div>
          <div className="field-row">
            <Day of={of} name="date" label="Day" latest={latest} />
            <Figure of={of} name="meter" label={`Meter, ${meterUnit}`} help="Where it was read." />
            <Figure of={of} name="value" label="Measured" help="A clearance, a flow, a pressure." />
            <Words of={of} name="valueUnit" label="In" help="mm, m³/h, kPa …" />
          </div>
          <Words of={of} name="remarks" label="Remarks" long />
        </fieldset>
      )}
    </RecordDesk>
  );
}

/** A reading of the meter between tests. */
export function MeterDesk({ unit, meterUnit, today, latest }: Desk) {
  const blank: MeterFields = { what: "meter", date: today, meter: "" };
  return (
    <RecordDesk unit={unit} blank={blank} address={recordAddress(unit, "meter")}>
      {(of) => (
        <div className="field-row">
          <Day of={of} name="date" label="Day" latest={latest} />
          <Figure of={of} name="meter" label={`Meter, ${meterUnit}`} />
        </div>
      )}
    </RecordDesk>
  );
}

/** A meter that was replaced: wear goes on where the old one stood. */
export function NewMeterDesk({ unit, meterUnit, today, latest }: Desk) {
  const blank: NewMeterFields = { what: "new-meter", date: today, last: "", first: "0" };
  return (
    <RecordDesk unit={unit} blank={blank} address={recordAddress(unit, "new-meter")}>
      {(of) => (
        <div className="field-row">
          <Day of={of} name="date" label="Day of the change" latest={latest} />
          <Figure
            of={of}
            name="last"
            label={`The old one showed, ${meterUnit}`}
            help="Leave it empty where nobody read it."
          />
          <Figure of={of} name="first" label={`The new one showed, ${meterUnit}`} />
        </div>
      )}
    </RecordDesk>
  );
}

/** When the unit is to leave the fleet: until then alone it may fall due. */
export function DisposalDesk({ unit, planned }: Pick<Desk, "unit"> & { readonly planned: string | null }) {
  const blank: DisposalFields = { what: "disposal", date: planned ?? "" };
  return (
    <RecordDesk unit={unit} blank={blank} address={recordAddress(unit, "disposal")}>
      {(of) => (
        <div className="field-row">
          <Day
            of={of}
            name="date"
            label="Leaves the fleet on"
            help="The day planned. To plan none again, undo what told it."
          />
        </div>
      )}
    </RecordDesk>
  );
}

const statusLabels = {
  "in-service": "In service: released for work",
  stopped: "Stopped: out of service until further notice",
  retired: "Retired: left the fleet",
} as const;

/** Stops, releases or retires the unit. A person decides that; the program only keeps it. */
export function StatusDesk({ unit, now }: Desk & { readonly now: UnitStatus }) {
  const blank: StatusFields = { what: "status", status: "", reason: "" };
  const others = unitStatuses.filter((status) => status !== now);
  return (
    <RecordDesk unit={unit} blank={blank} address={recordAddress(unit, "status")}>
      {(of) => (
        <>
          <div className="field-row">
            <Choice of={of} name="status" label="From now on" options={optionsOf(others, statusLabels)} />
          </div>
          <Words of={of} name="reason" label="Why" long />
        </>
      )}
    </RecordDesk>
  );
}

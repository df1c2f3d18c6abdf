"use client";

import { TextInput } from "@mantine/core";
import type { TestFact } from "../../../lib/schema/facts.ts";
import { testAddress } from "./address.ts";
import { printed } from "./choices.ts";
import { RecordDesk } from "./record-desk.client.tsx";
import type { CorrectionFields, JudgementFields } from "./test-form.ts";
import { Choice, Figure, Words } from "./typed-field.client.tsx";

interface Desk {
  readonly test: TestFact;
  /** Its readings as they are shown. */
  readonly seen: string;
}

const named = ({ test, seen }: Desk) => ({
  date: test.date,
  test: test.test,
  attempt: test.attempt,
  instrument: test.instrument,
  seen,
});

/** Sets a test or one cylinder's reading aside, accepts it, or takes such a judgement back. */
export function JudgementDesk(props: Desk) {
  const { test } = props;
  const blank: JudgementFields = { what: "judgement", ...named(props), cylinder: "", verdict: "", reason: "" };
  return (
    <RecordDesk unit={test.unit} blank={blank} given={named(props)} address={testAddress(test.unit, test)}>
      {(of) => (
        <>
          <div className="field-row">
            <Choice
              of={of}
              name="verdict"
              label="Judgement"
              options={[
                { value: "", label: "choose" },
                { value: "set-aside", label: "Set aside: kept and shown, not used" },
                { value: "accepted", label: "Accept: counts in full, whatever is doubted" },
                { value: "none", label: "Take back what was said before" },
              ]}
            />
            <Choice
              of={of}
              name="cylinder"
              label="Of"
              options={[
                { value: "", label: "the whole test" },
                ...test.readings.map(({ cylinder }) => ({
                  value: String(cylinder),
                  label: `cylinder ${cylinder} alone`,
                })),
              ]}
            />
          </div>
          <Words of={of} name="reason" label="Why" long />
        </>
      )}
    </RecordDesk>
  );
}

/** Corrects what was misread or mistyped; the old values stay in the history of the test. */
export function CorrectionDesk(props: Desk & { readonly meterUnit: string }) {
  const { test } = props;
  const blank: CorrectionFields = {
    what: "correction",
    ...named(props),
    meter: printed(test.meter),
    values: test.readings.map(({ value }) => printed(value)),
    reason: "",
  };
  return (
    <RecordDesk unit={test.unit} blank={blank} given={named(props)} address={testAddress(test.unit, test)}>
      {(of) => (
        <>
          <div className="field-row">
            {test.readings.map(({ cylinder, valueUnit }, place) => (
              <TextInput
                key={cylinder}
                label={`Cylinder ${cylinder}, ${valueUnit}`}
                inputMode="decimal"
                autoComplete="off"
                value={of.fields.values[place] ?? ""}
                error={of.problems[`values.${place}`]}
                onChange={(event) => {
                  const typed = event.currentTarget.value;
                  of.set({ values: of.fields.values.map((value, i) => (i === place ? typed : value)) });
                }}
              />
            ))}
            <Figure of={of} name="meter" label={`Meter, ${props.meterUnit}`} />
          </div>
          <Words of={of} name="reason" label="Why" long />
        </>
      )}
    </RecordDesk>
  );
}

"use client";

import type { TestFact } from "../../../lib/schema/facts.ts";
import { testAddress } from "./address.ts";
import { RecordDesk } from "./record-desk.client.tsx";
import type { JudgementFields } from "./test-form.ts";
import { Choice, Words } from "./typed-field.client.tsx";

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

/**
 * Sets a test or one cylinder's reading aside, accepts or withdraws it, says whether a fault had begun in a cylinder by
 * then, or takes such a judgement back.
 */
export function JudgementDesk(props: Desk & { readonly cylinder: string }) {
  const { test, cylinder } = props;
  const blank: JudgementFields = { what: "judgement", ...named(props), cylinder, verdict: "", reason: "" };
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
                { value: "fault", label: "A fault had begun by then, in one cylinder" },
                { value: "no-fault", label: "No fault had begun by then, in one cylinder" },
                { value: "withdrawn", label: "Withdraw: it was never made as told here" },
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

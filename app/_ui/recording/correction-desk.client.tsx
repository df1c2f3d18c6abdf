"use client";

import type { TestFact } from "../../../lib/schema/facts.ts";
import { measures, meterUnits } from "../../../lib/schema/words.ts";
import { measureTitles } from "../unit/unit-words.ts";
import { testAddress } from "./address.ts";
import { type CorrectionFields, correctionFieldsOf } from "./correction-fields.ts";
import { CorrectionReadings } from "./correction-readings.client.tsx";
import { RecordDesk } from "./record-desk.client.tsx";
import { Choice, Day, Figure, type FormState, optionsOf, Words } from "./typed-field.client.tsx";

const answers = [
  { value: "", label: "not recorded" },
  { value: "yes", label: "yes" },
  { value: "no", label: "no" },
] as const;

/** Tells a test again as it should have been; what stood of it stays in its history. */
export function CorrectionDesk(props: {
  readonly test: TestFact;
  /** As `seenOf` tells the test with all that stands of it. */
  readonly seen: string;
  /** Of the engine. */
  readonly cylinders: number;
  /** The last day that a test may carry. */
  readonly latest: string;
}) {
  const { test, seen } = props;
  return (
    <RecordDesk<CorrectionFields>
      unit={test.unit}
      blank={correctionFieldsOf(test, seen)}
      address={testAddress(test.unit, test)}
      keptAddress={addressAfter}
    >
      {(of) => (
        <>
          <CorrectionReadings of={of} cylinders={props.cylinders} />
          <TheTest of={of} latest={props.latest} />
          <SetUp of={of} />
          <Words of={of} name="reason" label="Why" help="Kept in the history of the test, with your name." long />
        </>
      )}
    </RecordDesk>
  );
}

/** The page of the test under the name that it was told again by. */
const addressAfter = ({ asUnit, asDate, asTest, asAttempt, asInstrument }: CorrectionFields): string =>
  testAddress(asUnit.trim(), {
    date: asDate,
    test: asTest,
    attempt: Number(asAttempt),
    instrument: asInstrument.trim().replace(/\s+/g, " ") || null,
  });

type Of = FormState<CorrectionFields>;

function TheTest({ of, latest }: { readonly of: Of; readonly latest: string }) {
  return (
    <fieldset>
      <legend>The test</legend>
      <div className="field-row">
        <Day of={of} name="asDate" label="Day" latest={latest} />
        <Choice of={of} name="asTest" label="Kind of test" options={optionsOf(measures, measureTitles, null)} />
        <Words of={of} name="asInstrument" label="Gauge or tester" />
        <Figure of={of} name="asAttempt" label="Attempt" />
        <Words of={of} name="asUnit" label="Unit" />
        <Figure of={of} name="meter" label="Meter" />
        <Choice
          of={of}
          name="meterUnit"
          label="Meter in"
          options={meterUnits.map((unit) => ({ value: unit, label: unit }))}
        />
        <Words of={of} name="engineSerial" label="Engine, serial number" />
        <Words of={of} name="depot" label="Depot" />
        <Words of={of} name="testedBy" label="Tested by" />
      </div>
      <p className="second">
        Another unit, day, kind, tester or attempt makes it another test: this one is then withdrawn, shown as “told
        again as …”, and what people judged of it goes along.
      </p>
    </fieldset>
  );
}

function SetUp({ of }: { readonly of: Of }) {
  const isLeakDown = of.fields.asTest === "leak-down";
  return (
    <fieldset>
      <legend>Set-up</legend>
      <div className="field-row">
        <Choice of={of} name="warm" label="Engine warm" options={answers} />
        <Choice of={of} name="throttleOpen" label="Throttle open" options={answers} />
        <Choice of={of} name="allPlugsOut" label="All plugs out" options={answers} />
        <Choice of={of} name="tdcConfirmed" label="Top dead centre confirmed" options={answers} />
        <Choice of={of} name="gaugeZeroed" label="Gauge zeroed" options={answers} />
        {isLeakDown ? (
          <Figure of={of} name="orificeMm" label="Restrictor bore, mm" />
        ) : (
          <Figure of={of} name="crankingRpm" label="Cranking speed, 1/min" />
        )}
        <Figure of={of} name="altitudeM" label="Altitude, m" />
        <Figure of={of} name="barometerKpa" label="Air pressure, kPa" />
      </div>
    </fieldset>
  );
}

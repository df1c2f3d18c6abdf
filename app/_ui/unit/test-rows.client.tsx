"use client";

import type { TestLine } from "@/lib/schema/report.ts";
import type { MeterUnit } from "@/lib/schema/words.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { listWords, sentenceWords } from "@/lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { useFormats } from "../formats.client.tsx";
import { testAddress } from "../recording/address.ts";
import type { ToldStep } from "../recording/told-steps.ts";
import { departureWords } from "./departures.ts";
import { doubtWords } from "./doubt-words.ts";
import { enteredWords, readings } from "./entered-words.ts";
import { setUpWords } from "./set-up-words.ts";
import { measureTitles, placeWords } from "./unit-words.ts";

interface Of {
  /** The unit whose page it is. */
  readonly unit: string;
  readonly meterUnit: MeterUnit;
  readonly cylinders: number;
}

/** The rows of the table of tests; a client component so that they are sent to the browser once, as data. */
export function TestRows({
  tests,
  steps,
  departed,
  ...of
}: Of & {
  readonly tests: readonly TestLine[];
  /** Of each test what was done to it since, in words. */
  readonly steps: readonly (readonly ToldStep[])[];
  /** Of each test the cylinders that left their family at it. */
  readonly departed: readonly (readonly number[])[];
}) {
  const f = useFormats();
  return tests.map((test, i) => (
    <TestRow
      key={`${test.file} ${test.line} ${test.measure} ${test.date} ${test.attempt} ${test.instrument}`}
      test={test}
      steps={steps[i] ?? []}
      departed={departed[i] ?? []}
      {...of}
      f={f}
    />
  ));
}

function TestRow({
  test,
  steps,
  departed,
  unit,
  meterUnit,
  cylinders,
  f,
}: Of & {
  readonly test: TestLine;
  readonly steps: readonly ToldStep[];
  readonly departed: readonly number[];
  readonly f: Formats;
}) {
  const unused = test.entered.every((e) => e.weight === 0);
  const lowestWeight = Math.min(1, ...test.entered.map((e) => e.weight));
  const levelUnit = test.measure === "leak-down" ? "%" : "kPa";
  const remarks = remarkWords(test);
  const setUp = setUpWords(test, f);
  return (
    <tr data-unused={unused}>
      <td className="unit-nowrap">
        {f.date(test.date)}
        {test.attempt > 1 && <span className="second"> attempt {test.attempt}</span>}
        {test.unit !== unit && <div className="small second">in {test.unit}</div>}
      </td>
      <td className="number">{f.number(test.meter * f.meterFactor(meterUnit))}</td>
      <td>{measureTitles[test.measure]}</td>
      <td>
        <span className="unit-nowrap">{enteredWords(test, cylinders, f)}</span>
        {remarks !== null && <div className="small second unit-remarks">{remarks}</div>}
      </td>
      <td>
        {test.doubts.length > 0 && (
          <div className="unit-doubt">
            {sentenceWords(f.words(test.doubts.map((d) => doubtWords(lowestWeight, d)).join("; ")))}
          </div>
        )}
        <span className="unit-nowrap">
          {test.referral.length === 0 && sameAsEntered(test)
            ? "as entered"
            : `${readings(test, cylinders, (e) => f.levelFigure(e.referred, levelUnit))} ${f.levelUnit(levelUnit)}`}
        </span>
        {departed.length > 0 && <div>Early warning: {departureWords(departed, cylinders)}</div>}
        {test.referral.length > 0 && <div className="small second">{f.words(test.referral.join("; "))}</div>}
      </td>
      <td>{heardWords(test)}</td>
      <td className="small unit-set-up">{setUp.length === 0 ? "not recorded" : sentenceWords(setUp.join(", "))}</td>
      <td>
        {test.instrument ?? "Tester not recorded"}
        <div className="small second">
          {test.testedBy ?? "by whom not recorded"}
          {test.depot !== null && `, ${test.depot}`}
        </div>
      </td>
      <td className="small second">
        {test.file}, line {test.line}
        {steps.length > 0 && (
          <ol className="test-steps">
            {steps.map(({ key, says }) => (
              <li key={key}>{says}</li>
            ))}
          </ol>
        )}
        <div className="no-print">
          <AppLink href={testAddress(test.unit, { ...test, test: test.measure })} aria-label={judgeLabel(test, f)}>
            Judge or correct
          </AppLink>
        </div>
      </td>
    </tr>
  );
}

const judgeLabel = ({ measure, date, attempt }: TestLine, f: Formats): string =>
  `Judge or correct: ${measureTitles[measure]}, ${f.date(date)}${attempt > 1 ? `, attempt ${attempt}` : ""}`;

type Entered = TestLine["entered"][number];

const sameAsEntered = (test: TestLine) => test.entered.every((e) => Math.abs(e.referred - e.value) < 0.05);

/** What people wrote beside the readings, once where it is the same beside several; null: nothing. */
function remarkWords(test: TestLine): string | null {
  const byText = new Map<string, number[]>();
  for (const { cylinder, remarks } of test.entered) {
    if (remarks !== null) byText.set(remarks, [...(byText.get(remarks) ?? []), cylinder]);
  }
  if (byText.size === 0) return null;
  return [...byText]
    .map(([text, cylinders]) =>
      cylinders.length === test.entered.length ? text : `cyl ${listWords(cylinders.map(String))}: ${text}`,
    )
    .join("; ");
}

function heardWords(test: TestLine): string {
  const heard = test.entered.filter((e) => e.heardAt.length > 0);
  if (heard.length === 0) return test.measure === "leak-down" ? "not recorded" : "";
  const words = (e: Entered) => e.heardAt.map((place) => placeWords[place]).join(" + ");
  const kinds = new Map<string, number[]>();
  for (const e of heard) kinds.set(words(e), [...(kinds.get(words(e)) ?? []), e.cylinder]);
  if (kinds.size === 1 && heard.length === test.entered.length && heard.length > 1)
    return `all: ${[...kinds.keys()].join()}`;
  return [...kinds].map(([place, cylinders]) => `cyl ${cylinders.join(", ")}: ${place}`).join("; ");
}

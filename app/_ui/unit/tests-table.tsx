import type { TestLine, UnitReport } from "@/lib/schema/report.ts";
import { formatDate, formatNumber, sentenceCase } from "../formats.ts";
import { Sheet } from "../sheet.tsx";
import { doubtWords } from "./doubt-words.ts";
import { ScrollBox } from "./scroll-box.tsx";
import { measureTitles, placeWords } from "./unit-words.ts";

/** Every test as entered and what it was made into: the twin of the charts. */
export function TestsTable({ report }: { readonly report: UnitReport }) {
  const { unit, meter } = report.assessment;
  const warnings = [...new Set(report.assessment.warnings)];
  const tests = [...report.tests].sort((a, b) => b.date.localeCompare(a.date) || b.x - a.x || b.attempt - a.attempt);
  const cylinders = report.model.cylinders;
  return (
    <Sheet title="Tests" note="what was entered, and what it was made into; nothing entered is ever changed" long>
      <ScrollBox name={`Tests of ${unit}`}>
        <table className="data-table unit-table">
          <caption className="visually-hidden">
            Tests of {unit}, latest first; readings in the order of the cylinders
          </caption>
          <thead>
            <tr>
              <th scope="col">Date</th>
              <th scope="col" className="number">
                Meter, {meter.unit}
              </th>
              <th scope="col">Test</th>
              <th scope="col">Entered</th>
              <th scope="col">Made into</th>
              <th scope="col">Heard at</th>
              <th scope="col">Tester</th>
              <th scope="col">By</th>
              <th scope="col">From</th>
            </tr>
          </thead>
          <tbody>
            {tests.map((test) => (
              <TestRow
                key={`${test.file} ${test.line} ${test.measure} ${test.date} ${test.attempt} ${test.instrument}`}
                test={test}
                cylinders={cylinders}
                ownUnit={unit}
              />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {warnings.length > 0 && (
        <>
          <h3 className="unit-noted">Noted on these data</h3>
          <ul className="unit-notes">
            {warnings.map((warning) => (
              <li key={warning}>{sentenceCase(warning)}</li>
            ))}
          </ul>
        </>
      )}
    </Sheet>
  );
}

function TestRow(props: { readonly test: TestLine; readonly cylinders: number; readonly ownUnit: string }) {
  const { test } = props;
  const unused = test.entered.every((e) => e.weight === 0);
  const lowestWeight = Math.min(1, ...test.entered.map((e) => e.weight));
  const referredUnit = test.measure === "leak-down" ? "%" : "kPa";
  return (
    <tr data-unused={unused}>
      <td className="unit-nowrap">
        {formatDate(test.date)}
        {test.attempt > 1 && <span className="second"> attempt {test.attempt}</span>}
        {test.unit !== props.ownUnit && <div className="small second">in {test.unit}</div>}
      </td>
      <td className="number">{formatNumber(test.meter)}</td>
      <td>{measureTitles[test.measure]}</td>
      <td>
        <span className="unit-nowrap">{enteredWords(test, props.cylinders)}</span>
      </td>
      <td>
        {test.doubts.length > 0 && (
          <div className="unit-doubt">
            {sentenceCase(test.doubts.map((d) => doubtWords(lowestWeight, d)).join("; "))}
          </div>
        )}
        <span className="unit-nowrap">
          {test.referral.length === 0 && sameAsEntered(test)
            ? "as entered"
            : `${readings(test, props.cylinders, (e) => formatNumber(e.referred))} ${referredUnit}`}
        </span>
        {test.referral.length > 0 && <div className="small second">{test.referral.join("; ")}</div>}
      </td>
      <td>{heardWords(test)}</td>
      <td>{test.instrument ?? "not recorded"}</td>
      <td>{test.testedBy ?? "not recorded"}</td>
      <td className="small second unit-nowrap">
        {test.file}, line {test.line}
      </td>
    </tr>
  );
}

type Entered = TestLine["entered"][number];

/** As it was entered, with the digits that it had. */
function enteredFigure({ value }: Entered): string {
  const decimals = String(value).split(".")[1]?.length ?? 0;
  return formatNumber(value, Math.min(decimals, 3));
}

const sameAsEntered = (test: TestLine) => test.entered.every((e) => Math.abs(e.referred - e.value) < 0.05);

/** "8 · 10 · 13 · 7" when every cylinder was read, else each with its number: "cyl 3: 13". */
function readings(test: TestLine, cylinders: number, write: (e: Entered) => string): string {
  const inOrder = [...test.entered].sort((a, b) => a.cylinder - b.cylinder);
  const all = inOrder.length === cylinders && inOrder.every((e, i) => e.cylinder === i + 1);
  return all ? inOrder.map(write).join(" · ") : inOrder.map((e) => `cyl ${e.cylinder}: ${write(e)}`).join(" · ");
}

function enteredWords(test: TestLine, cylinders: number): string {
  const [first] = test.entered;
  if (first === undefined) return "no reading";
  const oneUnit = test.entered.every((e) => e.valueUnit === first.valueUnit);
  const supplied = test.entered.every((e) => e.supply === first.supply) ? first.supply : null;
  const supply =
    test.measure === "leak-down" && supplied !== null
      ? first.valueUnit === "%"
        ? ` at ${formatNumber(supplied)} kPa`
        : ` held of ${formatNumber(supplied)}`
      : "";
  if (!oneUnit) return readings(test, cylinders, (e) => `${enteredFigure(e)} ${e.valueUnit}`);
  return `${readings(test, cylinders, enteredFigure)} ${first.valueUnit}${supply}`;
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

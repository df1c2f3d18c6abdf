import type { TesterComparison, TesterOffset } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";
import { measureNames } from "./compare-words.ts";
import { type OffsetAxis, offsetAxis, TesterStrip } from "./tester-strip.tsx";
import { amountWords, fewEnginesWords, hintOf, testerName, verdictWords } from "./tester-words.ts";

/** The instruments of one kind of test, on a common axis: those that stand out first, then those that can be compared. */
export function TestersSheet({ f, of }: { readonly f: Formats; readonly of: TesterComparison }) {
  const { measure, testers, matters, unnamed } = of;
  const axis = offsetAxis(of);
  const rank = ({ verdict, offset }: TesterOffset) =>
    verdict === "high" || verdict === "low" ? 0 : offset !== null ? 1 : 2;
  const size = ({ offset }: TesterOffset) => Math.abs(offset?.mean ?? 0);
  const sorted = testers.toSorted((a, b) => rank(a) - rank(b) || size(b) - size(a));
  const unit = measure === "leak-down" ? "points of leakage" : "% of the compression";
  return (
    <Sheet
      title={measureNames[measure]}
      note={`${unit}; right of nought reads high; line: 95 % interval; hollow: too few engines; pale: under ${amountWords(f, measure, matters)}, too little to matter`}
      long
    >
      <ScrollBox name={`Instruments for ${measureNames[measure].toLowerCase()}`}>
        <table className="data-table testers-table">
          <caption className="visually-hidden">Instruments and how far they read from the others</caption>
          <thead>
            <tr>
              <th scope="col">Instrument</th>
              <th scope="col" className="number">
                Tests
              </th>
              <th scope="col">Last used</th>
              <th scope="col" className="testers-axis">
                <span className="visually-hidden">Offset drawn</span>
                <svg width="100%" height="18" overflow="visible" aria-hidden="true">
                  {axis.ticks.map((tick) => (
                    <text
                      key={tick}
                      x={`${axis.left(tick).toFixed(2)}%`}
                      y="13"
                      textAnchor="middle"
                      className="plot-tick"
                    >
                      {tick > 0 ? "+" : ""}
                      {f.number(tick)}
                    </text>
                  ))}
                </svg>
              </th>
              <th scope="col">Beside the others</th>
              <th scope="col">Tied by</th>
            </tr>
          </thead>
          <tbody>
            {sorted.map((tester) => (
              <TesterRow key={`${tester.instrument} ${tester.orificeMm}`} f={f} of={of} tester={tester} axis={axis} />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {unnamed > 0 && (
        <p className="second">
          {f.number(unnamed)} {unnamed === 1 ? "test names" : "tests name"} no instrument and{" "}
          {unnamed === 1 ? "is" : "are"} left out.
        </p>
      )}
    </Sheet>
  );
}

function TesterRow(props: {
  readonly f: Formats;
  readonly of: TesterComparison;
  readonly tester: TesterOffset;
  readonly axis: OffsetAxis;
}) {
  const { f, of, tester, axis } = props;
  const standsOut = tester.verdict === "high" || tester.verdict === "low";
  const words = sentenceWords(verdictWords(f, of.measure, tester));
  const few = fewEnginesWords(f, of.measure, tester, hintOf(of, tester.instrument));
  return (
    <tr>
      <th scope="row">
        <span className="testers-name">{testerName(f, of.measure, tester)}</span>
        <span className="second small">{tester.depots.join(", ")}</span>
      </th>
      <td className="number">{f.number(tester.tests)}</td>
      <td className="unbroken">{f.date(tester.lastUsed)}</td>
      <td className="testers-axis">
        <TesterStrip tester={tester} axis={axis} matters={of.matters} />
      </td>
      <td className="testers-verdict">
        {standsOut ? <strong>{words}</strong> : <span className={tester.offset === null ? "second" : ""}>{words}</span>}
        {few !== null && <span className="second small testers-few">{sentenceWords(few)}</span>}
      </td>
      <td className="testers-units">
        {tester.units.map((unit) => (
          <AppLink key={unit} href={unitAddress(unit)}>
            {unit}
          </AppLink>
        ))}
        {tester.shared > tester.units.length && <span className="second">and more</span>}
      </td>
    </tr>
  );
}

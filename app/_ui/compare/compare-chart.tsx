import { fewestSisters } from "../../../lib/comparison/sister-band.ts";
import type { ModelComparison, WearCourse } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords, sentenceWords } from "../../../lib/wording.ts";
import { EmptyState } from "../empty-state.tsx";
import { Sheet } from "../sheet.tsx";
import { type CompareView, compareFileAddress } from "./address.ts";
import { figureNames, levelNames, levelUnitOf, measureNames, originNames } from "./compare-words.ts";
import { ComparisonFigures } from "./figures-table.client.tsx";
import { type CompareLine, compareLines, endOf, sisterLines } from "./lines.ts";
import { plotOf } from "./plot.ts";
import { SisterPlot } from "./sister-plot.tsx";

/** The sisters' band with the chosen units over it. */
export function CompareChart(props: {
  readonly f: Formats;
  readonly of: ModelComparison;
  readonly view: CompareView;
  readonly chosen: readonly WearCourse[];
  /** Courses of the sisters; empty where they are too many to draw. */
  readonly sisters: readonly WearCourse[];
}) {
  const { f, of, view, chosen } = props;
  const band = of.bands.find((b) => b.origin === view.since && b.figure === view.of) ?? null;
  const lines = compareLines(chosen, view);
  const sisters = sisterLines(props.sisters, view);
  const plot = plotOf(f, of, { band, lines, sisters, limit: of.limit });
  const missing = chosen.filter((course) => !lines.some((line) => line.unit === course.unit && line.runs.length > 0));
  const hasBand = (band?.stretches.length ?? 0) > 0;
  const engines = band?.engines ?? 0;
  const title = `${measureNames[of.measure]}, ${figureNames[view.of]}, ${originNames[view.since]}`;
  return (
    <Sheet
      title={title}
      note={`${levelNames[of.measure]} in ${f.levelUnit(levelUnitOf(of.measure))} over ${f.meterUnit(of.meterUnit)} ${originNames[view.since]}; readings, with their scatter`}
      className="compare-sheet"
    >
      {plot === null ? (
        <EmptyState says={nothingWords(of, view, missing)} />
      ) : (
        <>
          <SisterPlot
            f={f}
            plot={plot}
            of={of}
            band={band}
            lines={lines}
            sisters={sisters}
            label={chartLabel(f, of, view, lines, hasBand)}
          />
          <Key lines={lines} hasBand={hasBand} hasSisters={sisters.length > 0} />
          {!hasBand && (
            <p>
              No band: it needs {fewestSisters} engines that overlap along the meter, and{" "}
              {engines === 0 ? "none has" : engines === 1 ? "one has" : `${f.number(engines)} have`} two tests{" "}
              {originNames[view.since]}
              {engines >= fewestSisters ? ", at meter readings too far apart" : ""}.
            </p>
          )}
          {missing.length > 0 && <p>{missingWords(missing, view)}</p>}
          <ComparisonFigures
            of={{ measure: of.measure, meterUnit: of.meterUnit }}
            band={band}
            lines={lines}
            files={{ band: compareFileAddress(view, "band"), lines: compareFileAddress(view, "lines") }}
          />
        </>
      )}
    </Sheet>
  );
}

function Key(props: {
  readonly lines: readonly CompareLine[];
  readonly hasBand: boolean;
  readonly hasSisters: boolean;
}) {
  const { lines, hasBand, hasSisters } = props;
  const hasLater = lines.some((line) => line.runs.some((run) => !run.compared));
  const hasHollow = lines.some((line) => line.runs.some((run) => run.points.some(([, , weight]) => weight <= 0)));
  return (
    <ul className="compare-key" aria-label="Key">
      {hasBand && (
        <li>
          <svg width="26" height="14" aria-hidden="true">
            <rect y="1" width="26" height="12" className="plot-band" />
            <line x2="26" y1="7" y2="7" className="plot-band-middle" />
          </svg>
          8 in 10 sisters, and their middle
        </li>
      )}
      {hasSisters && (
        <li>
          <svg width="26" height="14" aria-hidden="true">
            <line x2="26" y1="7" y2="7" className="plot-sister" />
          </svg>
          one sister
        </li>
      )}
      {looksOf(lines).map((line) => (
        <li key={line.key}>
          <svg width="26" height="14" aria-hidden="true">
            <line x2="26" y1="7" y2="7" stroke={line.colour} strokeWidth="2.5" />
            {line.square ? (
              <rect x="9" y="3" width="8" height="8" fill={line.colour} />
            ) : (
              <circle cx="13" cy="7" r="4.2" fill={line.colour} />
            )}
          </svg>
          {line.label}
        </li>
      ))}
      {hasLater && <li>thin: after a repair, beside sisters without one</li>}
      {hasHollow && <li>hollow: kept, not used</li>}
    </ul>
  );
}

/** One line of each look, with what all of that look are called: cylinders of several units have their unit's. */
function looksOf(lines: readonly CompareLine[]): readonly CompareLine[] {
  const seen = new Map<string, CompareLine>();
  for (const line of lines) {
    const look = `${line.unit} ${line.colour} ${line.square}`;
    seen.set(look, seen.has(look) ? { ...line, label: `${line.unit}, cylinder by cylinder` } : line);
  }
  return [...seen.values()];
}

function missingWords(missing: readonly WearCourse[], { since }: CompareView): string {
  const names = listWords(missing.map((course) => course.unit));
  if (since !== "new") return `${names}: no test ${originNames[since]}, so no line.`;
  return `${names}: how far the engine had run when it came is not on file, so it has no line by the meter since new.`;
}

function nothingWords(of: ModelComparison, view: CompareView, missing: readonly WearCourse[]): string {
  if (missing.length > 0) return missingWords(missing, view);
  return view.since === "new"
    ? `No ${of.modelName} has a test that counts from new.`
    : `No ${of.modelName} was tested ${originNames[view.since]}. Choose another way to count the meter.`;
}

function chartLabel(
  f: Formats,
  of: ModelComparison,
  view: CompareView,
  lines: readonly CompareLine[],
  hasBand: boolean,
): string {
  const unit = levelUnitOf(of.measure);
  const ends = lines.flatMap((line) => {
    const end = endOf(line);
    return end === null ? [] : [`${line.label} ${f.level(end[1], unit)} at ${f.meter(end[0], of.meterUnit)}`];
  });
  return [
    `${sentenceWords(levelNames[of.measure])} of ${of.modelName}, ${figureNames[view.of]}, over the meter ${originNames[view.since]}.`,
    hasBand ? "Band of 8 in 10 sisters with their middle." : "No band of sisters.",
    ends.length === 0 ? "" : `Last readings: ${ends.join(", ")}.`,
    "The figures follow.",
  ]
    .filter(Boolean)
    .join(" ");
}

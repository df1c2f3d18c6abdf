import type { KnownSoFar } from "../../../db/known-so-far.ts";
import type { Settings } from "../../../lib/schema/settings.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { FirstSteps } from "../first-run/first-steps.tsx";
import { Sheet } from "../sheet.tsx";

/** The Fleet page before the first import: what to do, and what it will say. */
export function EmptyFleet(props: { readonly settings: Settings; readonly known: KnownSoFar; readonly f: Formats }) {
  const { settings, known, f } = props;
  return (
    <div className="page empty-fleet">
      <h1 className="finding">
        No tests yet. Bring in one file of compression or <span className="unbroken">leak-down</span> results and this
        page becomes the forecast.
      </h1>
      <FirstSteps
        known={known}
        toImport={
          <AppLink href="/import" variant="filled">
            Import files
          </AppLink>
        }
        toForecast={
          <AppLink href="/import" variant="button">
            To the demo fleet
          </AppLink>
        }
      />
      <Sheet title="What a row will say">
        <ExampleRow />
        <BandTable settings={settings} f={f} />
      </Sheet>
    </div>
  );
}

const marks = [
  { at: 22, word: "early", odds: "1 in 10 before" },
  { at: 47, word: "likely", odds: "1 in 2 before" },
  { at: 80, word: "late", odds: "9 in 10 before" },
] as const;

const seasons = [
  { at: 28, word: "spring" },
  { at: 53, word: "summer" },
  { at: 78, word: "autumn" },
] as const;

function ExampleRow() {
  const ink = "var(--ink)";
  return (
    <div className="example-row">
      <div>
        <BandMark band="plan" />
        <p className="second">cylinder 3, exhaust valve</p>
      </div>
      <div className="example-drawing">
        <svg width="100%" height="112" aria-hidden="true">
          {marks.map(({ at, word, odds }) => (
            <g key={word}>
              <text x={`${at}%`} y="14" textAnchor="middle" className="example-word">
                {word}
              </text>
              <text x={`${at}%`} y="31" textAnchor="middle" className="example-small">
                {odds}
              </text>
            </g>
          ))}
          <rect x="22%" y="50" width="58%" height="12" fill="var(--top-fill)" stroke="var(--top)" />
          <svg x="47%" y="44" width="1" height="24" overflow="visible" aria-hidden="true">
            <rect x="-3.5" width="7" height="24" fill="var(--surface)" />
            <rect x="-2" width="4" height="24" fill={ink} />
          </svg>
          <line x1="0" x2="100%" y1="84" y2="84" stroke="var(--rule-strong)" />
          <line x1="1" x2="1" y1="38" y2="84" stroke={ink} strokeWidth="1.5" />
          <text x="0" y="104" className="example-small">
            today
          </text>
          {seasons.map(({ at, word }) => (
            <g key={word}>
              <line x1={`${at}%`} x2={`${at}%`} y1="84" y2="89" stroke="var(--rule-strong)" />
              <text x={`${at}%`} y="104" textAnchor="middle" className="example-small">
                {word}
              </text>
            </g>
          ))}
        </svg>
        <span className="visually-hidden">
          A bar on an axis of dates: it begins at early, 1 in 10 before; a tick stands at likely, 1 in 2 before; it ends
          at late, 9 in 10 before.
        </span>
      </div>
    </div>
  );
}

function BandTable({ settings, f }: { readonly settings: Settings; readonly f: Formats }) {
  const months = settings.leadTimeMonths;
  const within = months === 12 ? "a year" : `${months} months`;
  const rows = [
    ["sound", "nothing to do before the next test"],
    [
      "watch",
      `at its watch limit, or a crossing within ${within} is at least ${f.probability(settings.watchProbability)} likely: test more often`,
    ],
    [
      "plan",
      `at its plan limit, or a crossing within ${within} is at least ${f.probability(settings.planProbability)} likely: plan a repair`,
    ],
    ["past-limit", "at or past its limit now"],
    [null, "no reading yet; book a first test"],
  ] as const;
  return (
    <table className="data-table band-table">
      <caption className="visually-hidden">What the bands mean</caption>
      <tbody>
        {rows.map(([band, words]) => (
          <tr key={band ?? "never"}>
            <th scope="row">
              <BandMark band={band} />
            </th>
            <td>{words}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

import type { ReliabilityPoint, TrackRecord } from "../../../lib/schema/track-record.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { measureNames } from "../compare/compare-words.ts";
import { Sheet } from "../sheet.tsx";

/** Reliability diagrams: what was told of how likely something is, against how often it came. */
export function ReliabilitySheet({ f, record }: { readonly f: Formats; readonly record: TrackRecord }) {
  const { levels, limits } = record;
  return (
    <Sheet
      title="Told and seen"
      note="Right: told probability; up: how often it came, with the 95 % interval. On the line, both agree"
    >
      <div className="record-diagrams">
        {levels.map(({ measure, reliability }) => (
          <Diagram
            key={measure}
            f={f}
            title={`${measureNames[measure]}: reads no worse than told`}
            points={reliability}
          />
        ))}
        {limits.reliability.length > 0 && (
          <Diagram f={f} title="Meets its limit within a year" points={limits.reliability} />
        )}
      </div>
    </Sheet>
  );
}

const ticks = [0, 0.25, 0.5, 0.75, 1] as const;
const at = (share: number) => `${(100 * share).toFixed(2)}%`;
const up = (share: number) => `${(100 - 100 * share).toFixed(2)}%`;

function Diagram(props: { readonly f: Formats; readonly title: string; readonly points: readonly ReliabilityPoint[] }) {
  const { f, title, points } = props;
  const known = points.flatMap((p) => (p.observed === null ? [] : [{ ...p, observed: p.observed }]));
  return (
    <figure className="record-diagram">
      <figcaption>{title}</figcaption>
      {known.length > 0 && (
        <div className="record-plot">
          <svg width="100%" height="100%" overflow="visible" aria-hidden="true">
            {ticks.map((tick) => (
              <g key={tick}>
                <line x1={at(tick)} x2={at(tick)} y2="100%" className="plot-grid" />
                <line x2="100%" y1={up(tick)} y2={up(tick)} className="plot-grid" />
                <text x={at(tick)} y="100%" dy="18" textAnchor="middle" className="plot-tick">
                  {f.number(100 * tick)}
                </text>
                <text x="-8" y={up(tick)} dy="4" textAnchor="end" className="plot-tick">
                  {f.number(100 * tick)}
                </text>
              </g>
            ))}
            <line x1="0" y1="100%" x2="100%" y2="0" className="plot-axis" />
            {known.map((p) => (
              <g key={p.predicted}>
                {p.low !== null && p.high !== null && (
                  <line
                    x1={at(p.predicted)}
                    x2={at(p.predicted)}
                    y1={up(p.low)}
                    y2={up(p.high)}
                    className="record-bar"
                  />
                )}
                <circle cx={at(p.predicted)} cy={up(p.observed)} r="4.5" className="record-dot" />
              </g>
            ))}
          </svg>
        </div>
      )}
      <table className="data-table record-points">
        <caption className="visually-hidden">{title}</caption>
        <thead>
          <tr>
            <th scope="col" className="number">
              Told
            </th>
            <th scope="col" className="number">
              Came
            </th>
            <th scope="col" className="number">
              Share
            </th>
          </tr>
        </thead>
        <tbody>
          {points.map((p) => (
            <tr key={p.predicted}>
              <td className="number">{f.percent(100 * p.predicted, p.predicted > 0 && p.predicted < 0.01 ? 2 : 0)}</td>
              <td className="number unbroken">
                {f.number(p.came)} of {f.number(p.of)}
              </td>
              <td className="number">{p.observed === null ? "can’t tell yet" : f.percent(100 * p.observed)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </figure>
  );
}

import type { RateGroup } from "../../../lib/schema/comparison.ts";
import type { RateAxis } from "./rate-words.ts";

/** Rates of a group on the common axis: a dot an engine, the box from 25 to 75 %, the whisker from 10 to 90 %, a tick at half. */
export function RateStrip({ group, axis }: { readonly group: RateGroup; readonly axis: RateAxis }) {
  const { quantiles: q, rates } = group;
  const at = (value: number) => `${axis.left(value).toFixed(2)}%`;
  return (
    <svg width="100%" height="30" className="rate-strip" overflow="visible" aria-hidden="true">
      {axis.ticks.map(({ rate }) => (
        <line
          key={rate}
          x1={at(rate)}
          x2={at(rate)}
          y1="0"
          y2="30"
          className={rate === 0 ? "strip-nought" : "strip-grid"}
        />
      ))}
      {q !== null && (
        <>
          <line x1={at(q.p10)} x2={at(q.p90)} y1="15" y2="15" className="strip-whisker" />
          <rect
            x={at(q.p25)}
            width={`${(axis.left(q.p75) - axis.left(q.p25)).toFixed(2)}%`}
            y="9"
            height="12"
            className="strip-box"
          />
        </>
      )}
      {rates.map((rate, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: equal rates of several engines are told apart by nothing else.
        <circle key={i} cx={at(rate)} cy="15" r="3" className="strip-dot" />
      ))}
      {q !== null && <Tick left={at(q.p50)} />}
    </svg>
  );
}

/** The likely value, as in every window: ink with a halo. */
function Tick({ left }: { readonly left: string }) {
  return (
    <svg x={left} y="7" width="1" height="16" overflow="visible" aria-hidden="true">
      <rect x={-2.6} width={5.2} height={16} fill="var(--surface)" />
      <rect x={-1.3} width={2.6} height={16} fill="var(--ink)" />
    </svg>
  );
}

import type { TesterComparison, TesterOffset } from "../../../lib/schema/comparison.ts";

/** A common axis for offsets, the same to both sides of nought. */
export interface OffsetAxis {
  readonly reach: number;
  readonly ticks: readonly number[];
  left(offset: number): number;
}

export function offsetAxis({ testers, matters }: TesterComparison): OffsetAxis {
  const ends = testers.flatMap(({ offset, soFar }) =>
    offset === null ? [Math.abs(soFar?.mean ?? 0)] : [Math.abs(offset.low), Math.abs(offset.high)],
  );
  const widest = Math.max(2 * matters, ...ends);
  const step = widest <= 4 ? 2 : widest <= 10 ? 5 : widest <= 20 ? 10 : 20;
  const reach = Math.ceil(widest / step) * step;
  const ticks = Array.from({ length: (2 * reach) / step + 1 }, (_, i) => -reach + i * step);
  return { reach, ticks, left: (offset) => (50 * (offset + reach)) / reach };
}

/**
 * Dot at the offset, whisker over its 95 % interval; hollow and without one: too few engines to tell. The pale stretch is
 * what does not matter.
 */
export function TesterStrip(props: {
  readonly tester: TesterOffset;
  readonly axis: OffsetAxis;
  readonly matters: number;
}) {
  const { axis, matters } = props;
  const { offset, soFar, verdict } = props.tester;
  const at = (value: number) => `${axis.left(value).toFixed(2)}%`;
  return (
    <svg width="100%" height="30" overflow="visible" aria-hidden="true">
      <rect
        x={at(-matters)}
        width={`${(axis.left(matters) - axis.left(-matters)).toFixed(2)}%`}
        height="30"
        className="strip-within"
      />
      {axis.ticks.map((tick) => (
        <line
          key={tick}
          x1={at(tick)}
          x2={at(tick)}
          y1="0"
          y2="30"
          className={tick === 0 ? "strip-nought" : "strip-grid"}
        />
      ))}
      {offset === null && soFar !== null && <circle cx={at(soFar.mean)} cy="15" r="4.5" className="strip-so-far" />}
      {offset !== null && (
        <g className="strip-offset" data-out={verdict === "high" || verdict === "low"}>
          <line x1={at(offset.low)} x2={at(offset.high)} y1="15" y2="15" />
          <line x1={at(offset.low)} x2={at(offset.low)} y1="10" y2="20" />
          <line x1={at(offset.high)} x2={at(offset.high)} y1="10" y2="20" />
          <circle cx={at(offset.mean)} cy="15" r="4.5" />
        </g>
      )}
    </svg>
  );
}

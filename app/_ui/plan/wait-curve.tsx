import type { WaitWeek } from "../../../lib/plan/can-wait.ts";
import { totalOf } from "../../../lib/plan/types.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { DepotWeek } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { Sheet } from "../sheet.tsx";
import { roundTicks } from "../unit/axis.ts";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { weekWords, wholeMoney, whyDear } from "./plan-words.ts";
import { leastOf, waitWords } from "./wait-words.ts";

const height = 220;
const foot = 26;
const head = 26;

/** Whether one unit can wait: expected cost by the week of its repair, and the risk of each. */
export function WaitCurve(props: {
  readonly f: Formats;
  readonly unit: string;
  readonly weeks: readonly WaitWeek[];
  /** Of the depot; where it is closed, nothing can begin. */
  readonly depotWeeks: readonly DepotWeek[];
  /** What not booking it within the plan costs; null: nothing that it cures may fall due. */
  readonly left: number | null;
  /** The day whose prices the repair stands at. */
  readonly firstMonday: IsoDate;
  readonly currency: string;
  readonly booked: IsoDate | null;
  readonly asked: IsoDate | null;
  readonly asOf: IsoDate;
}) {
  const { f, unit, weeks, depotWeeks, left, booked, asked, asOf } = props;
  const money = wholeMoney(f, props.currency);
  if (weeks.length === 0) return null;
  const costs = weeks.map(({ cost }) => totalOf(cost));
  const work = weeks[0]?.cost.work ?? 0;
  const low = Math.min(work, ...costs);
  // A repair that stands through a closing costs far more than any other week: the curve leaves the drawing there.
  const usual = Math.min(...weeks.map(({ cost }) => cost.downtime));
  const high = Math.max(
    low + 1,
    ...weeks.filter(({ cost }) => cost.downtime <= 3 * usual + 1).map(({ cost }) => totalOf(cost)),
  );
  const ticks = roundTicks([low, high], 4);
  const [bottom, top] = [Math.min(low, ticks[0] ?? low), Math.max(ticks.at(-1) ?? 0, high)];
  const of = depotWeeks.length;
  const x = (week: number) => (100 * (week + 0.5)) / of;
  const y = (cost: number) =>
    Math.max(2, head + (height - head - foot) * (1 - (cost - bottom) / Math.max(1, top - bottom)));
  const marks = [
    { at: weeks.find(({ start }) => start === booked), says: "booked" },
    { at: asked === booked ? undefined : weeks.find(({ start }) => start === asked), says: "asked for" },
  ].flatMap(({ at, says }) => (at === undefined ? [] : [{ at, says }]));
  const least = leastOf(weeks, left);
  const says = waitWords(money, { weeks, left, asOf });
  const best = weeks.reduce((a, b) => (totalOf(b.cost) < totalOf(a.cost) ? b : a));
  const told = [
    ...new Set([
      best,
      ...marks.map(({ at }) => at),
      ...[4, 8, 13, 26, 39, 51].flatMap((after) => nearest(weeks, best.week + after)),
      ...dearestOfClosings(weeks),
    ]),
  ].toSorted((a, b) => a.week - b.week);
  return (
    <Sheet
      title={`Can ${unit} wait?`}
      note={`expected cost by the week in which the repair begins, room or no room; the repair itself ${money(work)}, at the prices of ${f.date(props.firstMonday)} in every week`}
      className="plan-wait"
    >
      <p>{says}</p>
      <figure className="wait-figure" aria-label={`Expected cost by week. ${says} The table below tells the same.`}>
        <svg width="100%" height={height} role="img" aria-hidden="true">
          {closedSpans(depotWeeks).map(({ from, to }) => (
            <rect
              key={from}
              x={`${(100 * from) / of}%`}
              width={`${(100 * (to - from)) / of}%`}
              y={head}
              height={height - head - foot}
              fill="url(#plan-hatch)"
            />
          ))}
          {ticks
            .filter((tick) => tick >= bottom && tick <= top)
            .map((tick) => (
              <g key={tick}>
                <line x1="0" x2="100%" y1={y(tick)} y2={y(tick)} stroke="var(--grid)" />
                <text x="2" y={y(tick) - 4} className="wait-text">
                  {money(tick)}
                </text>
              </g>
            ))}
          {runsOf(weeks).map((run) =>
            run
              .slice(1)
              .map((week, i) => (
                <line
                  key={week.week}
                  x1={`${x((run[i] as WaitWeek).week)}%`}
                  x2={`${x(week.week)}%`}
                  y1={y(totalOf((run[i] as WaitWeek).cost))}
                  y2={y(totalOf(week.cost))}
                  stroke="var(--top)"
                  strokeWidth="2.25"
                  strokeLinecap="round"
                />
              )),
          )}
          <line x1="0" x2="100%" y1={height - foot} y2={height - foot} stroke="var(--ink)" />
          {weeks
            .filter(({ week }, i) => i === 0 || week % Math.max(4, 4 * Math.round(of / 26)) === 0)
            .map(({ week, start }) => (
              <text key={week} x={`${x(week)}%`} y={height - 8} textAnchor="middle" className="wait-text">
                {weekWords(start, start).replace("week", "w")}
              </text>
            ))}
          {marks.map(({ at, says }) => (
            <svg key={says} x={`${x(at.week)}%`} width="1" height={height} overflow="visible" aria-hidden="true">
              <circle
                cy={y(totalOf(at.cost))}
                r="5"
                fill={says === "booked" ? "var(--ink)" : "var(--surface)"}
                stroke="var(--ink)"
                strokeWidth="2"
              />
              <text
                x={x(at.week) > 70 ? -8 : 8}
                y={y(totalOf(at.cost)) + (says === "booked" ? -10 : 20)}
                textAnchor={x(at.week) > 70 ? "end" : "start"}
                className="wait-mark"
              >
                {says}, {money(totalOf(at.cost))}
              </text>
            </svg>
          ))}
        </svg>
      </figure>
      <ScrollBox name={`What later weeks cost and risk for ${unit}`}>
        <table className="data-table row-heads">
          <thead>
            <tr>
              <th scope="col">Begins</th>
              <th scope="col" className="number">
                Expected cost
              </th>
              <th scope="col" className="number">
                More than at best
              </th>
              <th scope="col">Dear by</th>
              <th scope="col" className="number">
                Past its limit by then
              </th>
              <th scope="col" className="number">
                Failed by then
              </th>
            </tr>
          </thead>
          <tbody>
            {left !== null && (
              <tr>
                <th scope="row">Not booked</th>
                <td className="number">{money(left)}</td>
                <td className="number">{money(left - least)}</td>
                <td>–</td>
                <td className="number">–</td>
                <td className="number">–</td>
              </tr>
            )}
            {told.map((week) => (
              <tr key={week.week}>
                <th scope="row">
                  {weekWords(week.start, asOf)}, {f.shortDate(week.start, asOf)}
                </th>
                <td className="number">{money(totalOf(week.cost))}</td>
                <td className="number">{money(totalOf(week.cost) - least)}</td>
                <td>{whyDear(week) || "–"}</td>
                <td className="number">{f.probability(week.pastLimit)}</td>
                <td className="number">{f.probability(week.failed)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </Sheet>
  );
}

const nearest = (weeks: readonly WaitWeek[], week: number): readonly WaitWeek[] => {
  const at = weeks.find((of) => of.week >= week);
  return at === undefined ? [] : [at];
};

/** Of the weeks before each closing through which the unit would stand, the dearest: the list of weeks tells it too. */
const dearestOfClosings = (weeks: readonly WaitWeek[]): readonly WaitWeek[] =>
  runsOf(weeks.filter(({ dearBy }) => dearBy.includes("closed"))).map((run) =>
    run.reduce((a, b) => (totalOf(b.cost) > totalOf(a.cost) ? b : a)),
  );

/** The curve is broken where no repair can begin. */
function runsOf(weeks: readonly WaitWeek[]): readonly (readonly WaitWeek[])[] {
  const runs: WaitWeek[][] = [];
  for (const week of weeks) {
    const last = runs.at(-1);
    if (last?.at(-1)?.week === week.week - 1) last.push(week);
    else runs.push([week]);
  }
  return runs;
}

function closedSpans(weeks: readonly DepotWeek[]): readonly { readonly from: number; readonly to: number }[] {
  const spans: { from: number; to: number }[] = [];
  for (const [week, { openDays }] of weeks.entries()) {
    if (openDays > 0) continue;
    const last = spans.at(-1);
    if (last?.to === week) last.to = week + 1;
    else spans.push({ from: week, to: week + 1 });
  }
  return spans;
}

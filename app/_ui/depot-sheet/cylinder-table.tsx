import type { Crossing, CylinderAssessment } from "@/lib/schema/assessment.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { judgedMeasures } from "@/lib/schema/words.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { bandWords } from "../band-mark.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { crossingWords, measureTitles } from "../unit/unit-words.ts";

/** More cylinders than this stand in two tables side by side. */
const longest = 6;

/** Every cylinder's level, limit and likely crossing, and the windows of the two classes of repair. */
export function CylinderTable({ report, f }: { readonly report: UnitReport; readonly f: Formats }) {
  const { cylinders, repairs, soldBefore = null } = report.assessment;
  const sold = (isAfter: boolean | undefined) =>
    isAfter && soldBefore !== null ? ` (sold before, on ${f.date(soldBefore.date)})` : "";
  const half = Math.ceil(cylinders.length / 2);
  const parts = cylinders.length > longest ? [cylinders.slice(0, half), cylinders.slice(half)] : [cylinders];
  return (
    <section aria-labelledby="depot-cylinders">
      <h2 id="depot-cylinders">Cylinders: level now (limit), and when the limit is met</h2>
      <ScrollBox name="Every cylinder">
        <div className="depot-tables" data-halves={parts.length > 1}>
          {parts.map((part) => (
            <PartTable key={part[0]?.cylinder} part={part} report={report} f={f} />
          ))}
        </div>
      </ScrollBox>
      <p>
        <strong>Top-end repair:</strong> {windowWords(repairs.topEnd, f)}
        {sold(soldBefore?.topEnd)}. <strong>Bottom-end repair:</strong> {windowWords(repairs.bottomEnd, f)}
        {sold(soldBefore?.bottomEnd)}.
      </p>
    </section>
  );
}

function PartTable(props: {
  readonly part: readonly CylinderAssessment[];
  readonly report: UnitReport;
  readonly f: Formats;
}) {
  const { part, report, f } = props;
  const measures = judgedMeasures.filter((m) => report.charts.some((chart) => chart.measure === m));
  return (
    <table className="data-table">
      <thead>
        <tr>
          <th scope="col">Cyl</th>
          <th scope="col">Band</th>
          {measures.map((m) => (
            <th key={m} scope="col" className="number">
              {measureTitles[m]}
            </th>
          ))}
          <th scope="col">Early – likely – late</th>
        </tr>
      </thead>
      <tbody>
        {part.map((cylinder) => (
          <tr key={cylinder.cylinder}>
            <th scope="row">{cylinder.cylinder}</th>
            <td>{bandWords[cylinder.band ?? "never-tested"]}</td>
            {measures.map((m) => (
              <td key={m} className="number">
                {levelWords(cylinder, m, f)}
              </td>
            ))}
            <td>{soonest(cylinder, f)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function levelWords(cylinder: CylinderAssessment, measure: string, f: Formats): string {
  const of = cylinder.measures.find((m) => m.measure === measure);
  if (of === undefined || of.level === null) return "–";
  const limit = of.limit === null ? "" : ` (${f.levelFigure(of.limit, of.unit)})`;
  return `${f.level(of.level, of.unit)}${limit}`;
}

/** The crossing that comes first of those of a cylinder's measures. */
function soonest({ measures }: CylinderAssessment, f: Formats): string {
  const order = ({ date }: Crossing) => date.p50 ?? (date.p10 === null ? "~~" : `${date.p10}~`);
  const [first] = measures
    .flatMap(({ crossing }) => (crossing === null ? [] : [crossing]))
    .toSorted((a, b) => (order(a) < order(b) ? -1 : 1));
  return first === undefined ? "not judged" : windowWords(first, f);
}

function windowWords({ status, date }: Crossing, f: Formats): string {
  if (status !== "projected" || date.p10 === null) return crossingWords[status];
  const say = (day: string) => f.forecast(day, date.p10, date.p90);
  if (date.p50 === null) return `hardly before ${say(date.p10)}`;
  return `${say(date.p10)} – ${say(date.p50)} – ${date.p90 === null ? "no late end" : say(date.p90)}`;
}

import { openingCautions } from "../../../lib/cause/cautions.ts";
import { causeLabel } from "../../../lib/cause/words.ts";
import type { WorkRange } from "../../../lib/plan/amounts.ts";
import type { PartsDemand } from "../../../lib/plan/parts-demand.ts";
import { lastBayDay } from "../../../lib/plan/plan-calendar.ts";
import type { CylinderAssessment } from "../../../lib/schema/assessment.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptBooking } from "../../../lib/schema/kept-plan.ts";
import type { UnitReport } from "../../../lib/schema/report.ts";
import { depotWorkshopOf } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { cylinderWords, sentenceWords } from "../../../lib/wording.ts";
import type { PlanNow } from "../../_jobs/plan-now.ts";
import { CylinderTable } from "../depot-sheet/cylinder-table.tsx";
import { daysWords } from "../plan/days-words.ts";
import { AircraftLine } from "../unit/unit-cautions.tsx";
import { PaperHead, Windows } from "./paper-parts.tsx";
import { contingencyWords, edges, edgesSay, figure, hoursFigure, materialName, reckonedWords } from "./paper-words.ts";

/** Groups of cylinders whose causes are told, how many causes of each, and reasons for each cause. */
const groupsTold = 3;
const causesTold = 2;
const reasonsTold = 2;
/** A cause with a smaller share has no room here. */
const worthReading = 0.1;
/** Steps told in full; of those after them the title must do. */
const stepsInFull = 3;

interface CardProps {
  readonly report: UnitReport;
  readonly booking: KeptBooking;
  readonly range: WorkRange;
  /** What is to be ordered for it, at the prices of the week. */
  readonly demand: PartsDemand;
  /** The plan that has it booked. */
  readonly plan: Pick<PlanNow, "row" | "limits">;
  readonly asOf: IsoDate;
  readonly currency: string;
  readonly f: Formats;
}

/** The front of a job card: why the unit is in, what to check before the head comes off, what may hurt, what it should take. */
export function JobCard({ report, booking, range, demand, plan, currency, asOf, f }: CardProps) {
  return (
    <article className="paper-sheet plan-paper" aria-label={`Job card of ${booking.unit}`}>
      <PaperHead paper="Job card" report={report} booking={booking} orderBy={demand.orderBy} f={f} />
      <p>
        <strong>Finding.</strong> {f.words(report.finding)} {f.words(report.howSure)}
      </p>
      {report.assessment.questions.map((question) => (
        <p key={question}>
          <strong>Asks you.</strong> {f.words(question)}
        </p>
      ))}
      <Windows booking={booking} asOf={asOf} f={f} />
      <Causes report={report} f={f} />
      {report.assessment.lastTestDate !== null && <CylinderTable report={report} f={f} />}
      <section aria-labelledby="card-before">
        <h2 id="card-before">Before the head comes off: the cheapest cure first</h2>
        <ol className="plan-paper-steps">
          {report.next.map(({ title, detail }, place) => (
            <li key={title}>
              <strong>{title}.</strong> {place < stepsInFull && f.words(detail)}
            </li>
          ))}
          <li>
            <strong>Ask before going on.</strong> If a check cures it or the class turns out otherwise, whoever planned
            the repair decides anew: the other class has another price.
          </li>
        </ol>
      </section>
      <p className="caution">
        <strong>Caution.</strong> {openingCautions(report.model).join(" ")} The maker’s manual, local rules and trained
        people decide.
      </p>
      {report.model.aircraft && <AircraftLine />}
      <Planned booking={booking} range={range} demand={demand} plan={plan} currency={currency} f={f} />
      <div className="paper-notes plan-paper-room">
        <h2>What the checks showed, by whom</h2>
        <div className="write-lines" aria-hidden="true" />
      </div>
    </article>
  );
}

const urgency = { "past-limit": 0, plan: 1, watch: 2, sound: 3 } as const;

function Causes({ report, f }: Pick<CardProps, "report" | "f">) {
  const told = causesOfCylinders(report, f);
  return (
    <section aria-labelledby="card-causes">
      <h2 id="card-causes">Likely causes, and what speaks for and against them</h2>
      {told.length === 0 && <p>No cylinder is on watch or worse now: the repair is foreseen from how they decline.</p>}
      <ul className="plan-paper-causes">
        {told.slice(0, groupsTold).map(({ words, cylinders }) => (
          <li key={words}>
            <strong>{sentenceWords(cylinderWords(cylinders))}.</strong> {words}
          </li>
        ))}
      </ul>
      {told.length > groupsTold && <p className="second">Of further cylinders the unit’s page tells.</p>}
    </section>
  );
}

/** Cylinders on watch or worse with their causes in words, those of which the same is told together; the most urgent first. */
function causesOfCylinders(report: UnitReport, f: Formats) {
  const due = report.assessment.cylinders
    .filter(({ band }) => band !== null && band !== "sound")
    .toSorted((a, b) => urgency[a.band ?? "sound"] - urgency[b.band ?? "sound"] || a.cylinder - b.cylinder);
  const groups = new Map<string, CylinderAssessment[]>();
  for (const cylinder of due) {
    const alike = JSON.stringify(toldCauses(cylinder).map(({ probability: _, ...told }) => told));
    groups.set(alike, [...(groups.get(alike) ?? []), cylinder]);
  }
  return [...groups.values()].map((alike) => ({
    words: causesWords(alike, f),
    cylinders: alike.map(({ cylinder }) => cylinder).toSorted((a, b) => a - b),
  }));
}

const toldCauses = ({ causes }: CylinderAssessment) =>
  causes
    .filter(({ probability }) => probability >= worthReading)
    .toSorted((a, b) => b.probability - a.probability)
    .slice(0, causesTold)
    .map(({ cause, probability, because, against }) => ({
      cause,
      probability,
      because: because.slice(0, reasonsTold),
      against: against.slice(0, 1),
    }));

/** The causes of cylinders that differ in nothing but how likely each cause is. */
function causesWords(alike: readonly CylinderAssessment[], f: Formats): string {
  const told = alike.map(toldCauses);
  return (told[0] ?? [])
    .map(({ cause, because, against }, i) => {
      const shares = told.map((causes) => causes[i]?.probability ?? 0);
      const [least, most] = [f.probability(Math.min(...shares)), f.probability(Math.max(...shares))];
      const words = [
        `${causeLabel(cause)} ${least === most ? least : `${least} to ${most}`}`,
        ...because.map((reason) => `for: ${f.words(reason)}`),
        ...against.map((reason) => `against: ${f.words(reason)}`),
      ];
      return `${words.join("; ")}.`;
    })
    .join(" ");
}

function Planned({ booking, range, demand, plan, currency, f }: Omit<CardProps, "report" | "asOf">) {
  const { work } = booking;
  const rows = [
    {
      name: `Labour, ${figure(f, work.labourHours)} h planned`,
      figures: edges.map((edge) => hoursFigure(f, range.hours[edge])),
    },
    ...(["parts", "machining"] as const)
      .filter((of) => work[of] > 0)
      .map((of) => ({
        name: materialName(f, of, demand[of], currency),
        figures: edges.map((edge) => f.money(range[of][edge], currency)),
      })),
    { name: `In the bay ${f.days(work.bayDays)}`, figures: [`until ${f.date(lastBayDay(booking))}`] },
    { name: `Off the road ${f.days(work.daysOff)}`, figures: ["–"] },
  ];
  return (
    <section aria-labelledby="card-planned">
      <h2 id="card-planned">What it should take, at the prices of its week</h2>
      <table className="data-table">
        <thead>
          <tr>
            <th scope="col">Of</th>
            {edges.map((edge) => (
              <th key={edge} scope="col">
                {sentenceWords(edge)}
              </th>
            ))}
            <th scope="col">It took</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, figures }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {figures.map((told, i) => (
                <td key={edges[i]} colSpan={figures.length === 1 ? edges.length : 1}>
                  {told}
                </td>
              ))}
              <td className="paper-write" />
            </tr>
          ))}
        </tbody>
      </table>
      <p className="second">
        {edgesSay} {reckonedWords(f, booking, plan.row)}{" "}
        {daysWords(f, work, depotWorkshopOf(plan.row.workshop, booking.depot))} {contingencyWords(f, booking, plan)}
      </p>
    </section>
  );
}

import { openingCautions } from "../../../lib/cause/next-steps.ts";
import { causeLabel } from "../../../lib/cause/words.ts";
import type { WorkRange } from "../../../lib/plan/amounts.ts";
import { lastBayDay } from "../../../lib/plan/plan-calendar.ts";
import type { CylinderAssessment } from "../../../lib/schema/assessment.ts";
import type { KeptBooking } from "../../../lib/schema/kept-plan.ts";
import type { UnitReport } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { CylinderTable } from "../depot-sheet/cylinder-table.tsx";
import { AircraftLine } from "../unit/unit-cautions.tsx";
import { PaperHead, Windows } from "./paper-parts.tsx";
import { figure, hoursRange } from "./paper-words.ts";

/** Cylinders whose causes are told, the most urgent first, and how many causes of each. */
const cylindersTold = 3;
const causesTold = 2;
/** A cause with a smaller share has no room here. */
const worthReading = 0.1;
/** Steps told in full; of those after them the title must do. */
const stepsInFull = 3;

interface CardProps {
  readonly report: UnitReport;
  readonly booking: KeptBooking;
  readonly range: WorkRange;
  /** Parts and machining at the prices of the week, in minor units. */
  readonly priced: { readonly parts: number; readonly machining: number };
  readonly currency: string;
  readonly f: Formats;
}

/** The front of a job card: why the unit is in, what to check before the head comes off, what may hurt, what it should take. */
export function JobCard({ report, booking, range, priced, currency, f }: CardProps) {
  return (
    <article className="paper-sheet plan-paper" aria-label={`Job card of ${booking.unit}`}>
      <PaperHead paper="Job card" report={report} booking={booking} f={f} />
      <p>
        <strong>Finding.</strong> {f.words(report.finding)} {f.words(report.howSure)}
      </p>
      <Windows booking={booking} f={f} />
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
      <Planned booking={booking} range={range} priced={priced} currency={currency} f={f} />
    </article>
  );
}

const urgency = { "past-limit": 0, plan: 1, watch: 2, sound: 3 } as const;

function Causes({ report, f }: Pick<CardProps, "report" | "f">) {
  const due = report.assessment.cylinders
    .filter(({ band }) => band !== null && band !== "sound")
    .toSorted((a, b) => urgency[a.band ?? "sound"] - urgency[b.band ?? "sound"] || a.cylinder - b.cylinder);
  return (
    <section aria-labelledby="card-causes">
      <h2 id="card-causes">Likely causes, and what speaks for and against them</h2>
      {due.length === 0 && <p>No cylinder is on watch or worse now: the repair is foreseen from how they decline.</p>}
      <ul className="plan-paper-causes">
        {due.slice(0, cylindersTold).map((cylinder) => (
          <CylinderCauses key={cylinder.cylinder} of={cylinder} f={f} />
        ))}
      </ul>
      {due.length > cylindersTold && (
        <p className="second">{f.number(due.length - cylindersTold)} more cylinders: see the unit’s page.</p>
      )}
    </section>
  );
}

function CylinderCauses({ of, f }: { readonly of: CylinderAssessment; readonly f: Formats }) {
  const causes = of.causes
    .filter(({ probability }) => probability >= worthReading)
    .toSorted((a, b) => b.probability - a.probability)
    .slice(0, causesTold);
  return (
    <li>
      <strong>Cylinder {of.cylinder}.</strong>{" "}
      {causes.map(({ cause, probability, because, against }) => (
        <span key={cause}>
          {causeLabel(cause)} {f.probability(probability)}
          {because[0] !== undefined && `; for: ${f.words(because[0])}`}
          {against[0] !== undefined && `; against: ${f.words(against[0])}`}.{" "}
        </span>
      ))}
    </li>
  );
}

function Planned({ booking, range, priced, currency, f }: Omit<CardProps, "report">) {
  const { work } = booking;
  const rows = [
    ["Labour", `${figure(f, work.labourHours)} h`, hoursRange(f, range.hours)],
    ...(["parts", "machining"] as const)
      .filter((of) => work[of] > 0)
      .map((of) => [
        of === "parts" ? "Parts" : "Machining, outside",
        f.money(priced[of], currency),
        `${f.money(range[of].low, currency)} to ${f.money(range[of].high, currency)}`,
      ]),
    ["In the bay", f.days(work.bayDays), `until ${f.date(lastBayDay(booking))}`],
    ["Off the road", f.days(work.daysOff), "–"],
  ];
  return (
    <section aria-labelledby="card-planned">
      <h2 id="card-planned">What it should take, at the prices of its week</h2>
      <table className="data-table">
        <thead>
          <tr>
            <th scope="col">Of</th>
            <th scope="col">Planned</th>
            <th scope="col">8 in 10 between</th>
            <th scope="col">It took</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([of, planned, between]) => (
            <tr key={of}>
              <th scope="row">{of}</th>
              <td>{planned}</td>
              <td>{between}</td>
              <td className="paper-write" />
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

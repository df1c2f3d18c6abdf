import { addMonths, dayNumber } from "@/lib/calendar.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { AssessmentSettings } from "@/lib/schema/settings.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { PastLimitChart } from "./past-limit-chart.client.tsx";
import { PastLimitFigures } from "./past-limit-figures.client.tsx";
import { chanceAt } from "./past-limit-rows.ts";

export type LeadTime = Pick<AssessmentSettings, "leadTimeMonths" | "planProbability" | "watchProbability">;

/** Chance of being past a limit, by month: drawn, in words at the planning lead time, and as figures. */
export function PastLimitSheet(props: {
  readonly report: UnitReport;
  readonly lead: LeadTime;
  /** The address below which the page's tables are downloaded. */
  readonly filesAt: string;
  readonly f: Formats;
}) {
  const { report, lead, filesAt, f } = props;
  const months = report.pastLimit;
  return (
    <Sheet
      title="Chance of being past the limit"
      note="by month from today, if no repair is made"
      controls={months.length > 1 && <CsvLink href={`${filesAt}/past-limit`} of="chances by month" />}
    >
      {months.length < 2 ? <p>No forecast yet, so no chance to tell.</p> : <Course months={months} lead={lead} f={f} />}
    </Sheet>
  );
}

function Course(props: { readonly months: UnitReport["pastLimit"]; readonly lead: LeadTime; readonly f: Formats }) {
  const { months, lead, f } = props;
  const today = months[0]?.date ?? "";
  const last = months.at(-1)?.date ?? "";
  const chances = (date: string) => {
    const { topEnd, bottomEnd } = chanceAt(months, date);
    return `top-end ${f.probability(topEnd)}, bottom-end ${f.probability(bottomEnd)}`;
  };
  const leadDate = addMonths(today, lead.leadTimeMonths);
  const isInside = leadDate < last;
  const byLead = `Within the planning lead time, by ${f.date(leadDate)}: ${chances(leadDate)}.`;
  const thresholds = `A cylinder whose own chance by then is ${f.probability(lead.planProbability)} or more is one to plan, from ${f.probability(lead.watchProbability)} one to watch.`;
  return (
    <>
      <PastLimitChart
        months={months}
        tickDates={halfYears(months.map((m) => m.date))}
        lead={
          isInside
            ? {
                day: dayNumber(leadDate),
                planPercent: lead.planProbability * 100,
                watchPercent: lead.watchProbability * 100,
              }
            : null
        }
        label={`Chance of being past a limit. ${isInside ? `${byLead} ` : ""}By ${f.month(last)}: ${chances(last)}. Figures by month follow.`}
      />
      {isInside && (
        <p className="unit-crossing">
          <strong>{byLead}</strong> {thresholds}
        </p>
      )}
      <PastLimitFigures months={months} />
    </>
  );
}

/** First months of half years, or of years when there are many. */
function halfYears(dates: readonly string[]): readonly string[] {
  const halves = dates.filter((d) => ["01", "07"].includes(d.slice(5, 7)));
  const kept = halves.length > 5 ? halves.filter((d) => d.slice(5, 7) === "01") : halves;
  return [...new Map(kept.map((d) => [d.slice(0, 7), d])).values()];
}

import { type PartsDemand, partsDemandOf } from "../../../lib/plan/parts-demand.ts";
import { priceGrowthOf } from "../../../lib/plan/problem-of.ts";
import { planScopeWords } from "../../../lib/plan/scope-words.ts";
import { noCurrency } from "../../../lib/schema/currency.ts";
import type { KeptBooking } from "../../../lib/schema/kept-plan.ts";
import type { UnitReport } from "../../../lib/schema/report.ts";
import { depotWorkshopOf } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import type { PlanNow } from "../../_jobs/plan-now.ts";
import { daysWords } from "../plan/days-words.ts";
import { AircraftLine } from "../unit/unit-cautions.tsx";
import { PaperHead, Windows, WriteField } from "./paper-parts.tsx";
import { contingencyWords, edges, edgesSay, figure, hoursRange, materialName, reckonedWords } from "./paper-words.ts";
import type { QuoteCase } from "./quote-cases.ts";

interface QuoteProps {
  readonly report: UnitReport;
  readonly booking: KeptBooking;
  /** The booked one first. */
  readonly cases: readonly QuoteCase[];
  readonly plan: PlanNow;
  readonly f: Formats;
}

/** A quote for a booked repair as a range, and what it would be if the class of repair turned out otherwise. */
export function Quote({ report, booking, cases, plan, f }: QuoteProps) {
  const { row, asOf } = plan;
  const { currency } = row.plan;
  const demand = partsDemandOf(booking, { asOf, prices: priceGrowthOf(row.workshop, row.asOf) });
  const [booked] = cases as readonly [QuoteCase, ...QuoteCase[]];
  return (
    <article className="paper-sheet plan-paper" aria-label={`Quote for ${booking.unit}`}>
      <PaperHead paper="Quote" report={report} booking={booking} orderBy={demand.orderBy} f={f} />
      <p className="plan-paper-lead">
        A quote is a range until the head is off: {f.money(booked.range.total.low, currency)} to{" "}
        {f.money(booked.range.total.high, currency)}, likely {f.money(booked.range.total.likely, currency)}.
      </p>
      <p>{f.words(report.finding)}</p>
      <Windows booking={booking} asOf={asOf} f={f} />
      <Amounts of={booked} demand={demand} currency={currency} f={f} />
      <p>{pricesWords(row, booking, f)}</p>
      <p>{reckonedWords(f, booking, row)}</p>
      <Otherwise cases={cases} currency={currency} f={f} />
      <section aria-labelledby="quote-left">
        <h2 id="quote-left">What is not in it</h2>
        <p>
          The unit is off the road for {f.days(booked.work.daysOff)}, in the bay for {f.days(booked.work.bayDays)}.{" "}
          {daysWords(f, booked.work, depotWorkshopOf(row.workshop, booking.depot))} The plan expects being off the road
          to cost {f.money(booking.cost.downtime, currency)}, which is no part of the quote. Nor is what a failure
          before the repair would break, a recovery, or hire of another unit. {contingencyWords(f, booking, plan)}
        </p>
      </section>
      <p className="caution">
        The maker’s manual, local rules and trained people decide what is done. A quote plans and prices; it releases
        nothing to service.
      </p>
      {report.model.aircraft && <AircraftLine />}
      <div className="paper-notes">
        <h2>Notes</h2>
        <div className="write-lines" aria-hidden="true" />
      </div>
      <p className="paper-fields">
        <WriteField name="Asked by, date" />
        <WriteField name="Released up to" />
        <WriteField name="Signed, date" />
      </p>
    </article>
  );
}

function Amounts(props: {
  readonly of: QuoteCase;
  /** What is to be ordered for it, at the prices of the week. */
  readonly demand: PartsDemand;
  readonly currency: string;
  readonly f: Formats;
}) {
  const { of, demand, currency, f } = props;
  const { work, range } = of;
  const rows = [
    { name: `Labour, ${figure(f, work.labourHours)} h planned, ${hoursRange(f, range.hours)}`, amounts: range.labour },
    { name: materialName(f, "parts", demand.parts, currency), amounts: range.parts },
    ...(work.machining > 0
      ? [{ name: materialName(f, "machining", demand.machining, currency), amounts: range.machining }]
      : []),
    { name: "Total", amounts: range.total },
  ];
  return (
    <table className="data-table">
      <caption className="visually-hidden">The quote as a range</caption>
      <thead>
        <tr>
          <th scope="col">{currency === noCurrency ? "Amounts" : `Amounts in ${currency}`}</th>
          {edges.map((edge) => (
            <th key={edge} scope="col" className="number">
              {sentenceWords(edge)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, amounts }) => (
          <tr key={name} data-total={name === "Total"}>
            <th scope="row">{name}</th>
            {edges.map((edge) => (
              <td key={edge} className="number">
                {f.money(amounts[edge], currency)}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function pricesWords({ workshop, asOf }: PlanNow["row"], { start }: KeptBooking, f: Formats): string {
  const { priceDate, labourGrowthPercent, partsGrowthPercent, spreads } = workshop;
  const digits = (percent: number) => f.percent(percent, Number.isInteger(percent) ? 0 : 1);
  const date = priceDate ?? asOf;
  const grown =
    start > date
      ? `grown to ${f.date(start)} by ${digits(labourGrowthPercent)} a year for labour and machining, ${digits(partsGrowthPercent)} for parts`
      : "not grown";
  return `${edgesSay} The total is no sum of its parts: not all of them come out high at once. Prices of ${f.date(date)}, ${grown}. Hours scatter by ${digits(spreads.hoursPercent)} about what is told, parts and machining by ${digits(spreads.partsPercent)}: judgement, to be changed in the settings.`;
}

function Otherwise({ cases, currency, f }: Pick<QuoteProps, "cases" | "f"> & { readonly currency: string }) {
  return (
    <section aria-labelledby="quote-otherwise">
      <h2 id="quote-otherwise">What would change it: the class of repair turns out otherwise</h2>
      <table className="data-table">
        <thead>
          <tr>
            <th scope="col">If it is</th>
            <th scope="col" className="number">
              Chance
            </th>
            <th scope="col" className="number">
              Hours
            </th>
            {edges.map((edge) => (
              <th key={edge} scope="col" className="number">
                {sentenceWords(edge)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {cases.map(({ scope, chance, range, isBooked }) => (
            <tr key={scope}>
              <th scope="row">
                {sentenceWords(planScopeWords[scope])}
                {isBooked && ", as booked"}
              </th>
              <td className="number">{chance === null ? "–" : f.probability(chance)}</td>
              <td className="number">{hoursRange(f, range.hours)}</td>
              {edges.map((edge) => (
                <td key={edge} className="number">
                  {f.money(range.total[edge], currency)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="second">
        The chance is that of the two classes, if one of them falls due within the plan. That both are found at once, no
        forecast tells.
      </p>
    </section>
  );
}

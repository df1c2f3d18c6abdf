import { openingCautions } from "../../../lib/cause/cautions.ts";
import { causeLabel } from "../../../lib/cause/words.ts";
import { type CsvTable, csvTable, yesNo } from "../../../lib/outtake/csv-table.ts";
import type { AmountRange } from "../../../lib/plan/amounts.ts";
import { orderBy } from "../../../lib/plan/order-by.ts";
import { lastBayDay } from "../../../lib/plan/plan-calendar.ts";
import { minorUnits } from "../../../lib/plan/works-of.ts";
import { minorDigits } from "../../../lib/schema/currency.ts";
import type { KeptBooking } from "../../../lib/schema/kept-plan.ts";
import type { UnitReport } from "../../../lib/schema/report.ts";
import { percentWords } from "../../../lib/wording.ts";
import { edges } from "./paper-words.ts";
import type { QuoteCase } from "./quote-cases.ts";

/** What a job card and a quote of a booking are written from. */
export interface BookedPaper {
  readonly report: UnitReport;
  readonly booking: KeptBooking;
  /** The booked one first. */
  readonly cases: readonly QuoteCase[];
}

/** A cause with a smaller share is not told. */
const worthReading = 0.1;

type Columns<Row> = Readonly<Record<string, (row: Row) => number | null>>;

/** How figures are written: `minor` of what a range is in make one of them, which has so many digits after the point. */
interface Written {
  readonly minor: number;
  readonly digits: number;
}

const tenths: Written = { minor: 1, digits: 1 };

const amountsOf = (currency: string): Written => ({ minor: minorUnits(currency), digits: minorDigits(currency) });

/** Three columns of a range. */
function rangeColumns<Row>(name: string, rangeOf: (row: Row) => AmountRange, written: Written): Columns<Row> {
  const parts = 10 ** written.digits;
  // Put together first: of money it is 1, and no rounding comes before the last.
  const factor = parts / written.minor;
  return Object.fromEntries(
    edges.map((edge) => [`${name}_${edge}`, (row: Row) => Math.round(factor * rangeOf(row)[edge]) / parts]),
  );
}

/** Job cards of bookings: why each unit is in, what to check first, what may hurt and what it should take. */
export function jobCardsTable(papers: readonly BookedPaper[], currency: string): CsvTable {
  const amounts = amountsOf(currency);
  const range = (of: "hours" | "parts" | "machining") => (paper: BookedPaper) => booked(paper).range[of];
  return csvTable<BookedPaper>(papers, {
    unit: ({ booking }) => booking.unit,
    engine_serial: ({ report }) => report.assessment.engineSerial,
    engine_model: ({ report }) => report.model.id,
    depot: ({ booking }) => booking.depot,
    repair: ({ booking }) => booking.scope,
    start: ({ booking }) => booking.start,
    last_bay_day: ({ booking }) => lastBayDay(booking),
    order_by: ({ booking }) => orderBy(booking),
    finding: ({ report }) => report.finding,
    how_sure: ({ report }) => report.howSure,
    asks: ({ report }) => report.assessment.questions.join(" "),
    cylinders: ({ report }) => causesOf(report),
    check_first: ({ report }) => report.next.map(({ title }) => title).join("; "),
    cautions: ({ report }) => openingCautions(report.model).join(" "),
    ...rangeColumns("hours", range("hours"), tenths),
    ...rangeColumns("parts", range("parts"), amounts),
    ...rangeColumns("machining", range("machining"), amounts),
    currency: () => currency,
    bay_days: ({ booking }) => booking.work.bayDays,
    days_off: ({ booking }) => booking.work.daysOff,
  });
}

/** Quotes of bookings, a row for each class of repair that it may turn out to be; amounts at the prices of its week. */
export function quotesTable(papers: readonly BookedPaper[], currency: string): CsvTable {
  const amounts = amountsOf(currency);
  type Row = BookedPaper & { readonly of: QuoteCase };
  const rows = papers.flatMap((paper) => paper.cases.map((of): Row => ({ ...paper, of })));
  return csvTable<Row>(rows, {
    unit: ({ booking }) => booking.unit,
    depot: ({ booking }) => booking.depot,
    start: ({ booking }) => booking.start,
    repair: ({ of }) => of.scope,
    booked: ({ of }) => yesNo(of.isBooked),
    chance: ({ of }) => (of.chance === null ? null : Number(of.chance.toFixed(4))),
    ...rangeColumns<Row>("hours", ({ of }) => of.range.hours, tenths),
    ...rangeColumns<Row>("labour", ({ of }) => of.range.labour, amounts),
    ...rangeColumns<Row>("parts", ({ of }) => of.range.parts, amounts),
    ...rangeColumns<Row>("machining", ({ of }) => of.range.machining, amounts),
    ...rangeColumns<Row>("total", ({ of }) => of.range.total, amounts),
    currency: () => currency,
  });
}

function booked({ cases }: BookedPaper): QuoteCase {
  const [first] = cases;
  if (first === undefined) throw new Error("a quote without the repair that is booked");
  return first;
}

/** Cylinders on watch or worse with their likely causes: "3: exhaust valve or seat 82 %, head gasket 11 %". */
const causesOf = ({ assessment }: UnitReport): string =>
  assessment.cylinders
    .filter(({ band }) => band !== null && band !== "sound")
    .map(({ cylinder, causes }) => {
      const told = causes
        .filter(({ probability }) => probability >= worthReading)
        .map(({ cause, probability }) => `${causeLabel(cause).toLowerCase()} ${percentWords(100 * probability)}`);
      return told.length === 0 ? String(cylinder) : `${cylinder}: ${told.join(", ")}`;
    })
    .join("; ");

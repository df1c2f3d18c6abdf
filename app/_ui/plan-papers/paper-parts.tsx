import type { ReactNode } from "react";
import { planScopeWords } from "../../../lib/plan/scope-words.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptBooking } from "../../../lib/schema/kept-plan.ts";
import type { UnitReport } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { PrintButton } from "../print-button.client.tsx";
import { unitAddress } from "../unit-address.ts";
import { planAddress } from "./address.ts";
import { classWords, sureWords, weekWords, windowWords } from "./paper-words.ts";

/** The frame of a paper about one unit's booking: ways back, other bookings of the unit, and the button to print. */
export function PaperPage(props: {
  readonly unit: string;
  readonly title: string;
  readonly others: readonly KeptBooking[];
  readonly addressOf: (unit: string, scope: KeptBooking["scope"]) => string;
  /** The other paper about the same booking. */
  readonly beside: ReactNode;
  readonly f: Formats;
  readonly children: ReactNode;
}) {
  const { unit, title, others, addressOf, beside, f, children } = props;
  return (
    <div className="page paper-page">
      <nav aria-label="Way back" className="paper-tools no-print">
        <AppLink href={planAddress}>Plan</AppLink>
        <AppLink href={unitAddress(unit)}>{unit}</AppLink>
        {beside}
        {others.map(({ scope, start }) => (
          <AppLink key={scope} href={addressOf(unit, scope)}>
            {sentenceWords(planScopeWords[scope])} in {weekWords(f, start)}
          </AppLink>
        ))}
        <PrintButton />
      </nav>
      <h1 className="finding no-print">{title}</h1>
      {children}
    </div>
  );
}

/** Whose engine it is, where, when, and until when to order. */
export function PaperHead(props: {
  readonly paper: string;
  readonly report: UnitReport;
  readonly booking: KeptBooking;
  /** Day by which to order its parts. */
  readonly orderBy: IsoDate;
  readonly f: Formats;
}) {
  const { paper, report, booking, orderBy, f } = props;
  const { assessment, model, unitClass } = report;
  const facts = [
    booking.depot,
    assessment.engineSerial === null ? "engine without number" : `engine ${assessment.engineSerial}`,
    f.meter(assessment.meter.value, assessment.meter.unit),
    `order parts by ${f.date(orderBy)}`,
    ...(booking.isPinned ? ["pinned to this week"] : []),
  ];
  return (
    <header className="paper-head">
      <p className="unit-title">
        <span className="unit-number">{booking.unit}</span>
        <strong>
          {paper}: {planScopeWords[booking.scope]}, {weekWords(f, booking.start)}
        </strong>
        <span className="second">{[model.name ?? model.id, unitClass].filter(Boolean).join(" · ")}</span>
      </p>
      <p>{facts.join(" · ")}</p>
    </header>
  );
}

/** When the limits are met that the repair cures, and how sure its class is. */
export function Windows(props: { readonly booking: KeptBooking; readonly asOf: IsoDate; readonly f: Formats }) {
  const { booking, asOf, f } = props;
  const windows = booking.windows.map(
    (window) =>
      `${sentenceWords(classWords[window.of])} limit, early – likely – late: ${windowWords(f, window, asOf)}.`,
  );
  return (
    <p>
      <strong>Class and window.</strong> {sentenceWords(sureWords(f, booking))}. {windows.join(" ")}
    </p>
  );
}

/** A line to write on, its name below. */
export const WriteField = ({ name }: { readonly name: string }) => (
  <span className="paper-field">
    <span>{name}</span>
  </span>
);

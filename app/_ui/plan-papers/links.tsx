import { AppLink } from "../app-link.client.tsx";
import {
  calendarAddress,
  depotNoteAddress,
  doneAddress,
  jobCardAddress,
  partsAddress,
  planFileAddress,
  quoteAddress,
} from "./address.ts";
import "./links.css";

type Of = { readonly unit: string } | { readonly depot: string } | { readonly depots: readonly string[] };

/**
 * What the plan hands on: of a unit's booking its job card and its quote; of a depot its note, calendar and bookings; of the fleet
 * (`depots`: those with a workshop in the plan) the lists, all calendars and the way to each depot's note.
 */
export function PlanPaperLinks(props: Of) {
  return <ul className="plan-paper-links no-print">{links(props)}</ul>;
}

function links(of: Of) {
  if ("unit" in of) {
    return (
      <>
        <Page href={jobCardAddress(of.unit)}>Job card</Page>
        <Page href={quoteAddress(of.unit)}>Quote</Page>
      </>
    );
  }
  if ("depot" in of) {
    return (
      <>
        <Page href={depotNoteAddress(of.depot)}>Note to {of.depot}</Page>
        <Page href={`${partsAddress}?depot=${encodeURIComponent(of.depot)}`}>Parts to order</Page>
        <File href={calendarAddress(of.depot)}>Calendar of {of.depot}</File>
        <File href={planFileAddress("bookings", of.depot)}>Bookings of {of.depot} as CSV</File>
      </>
    );
  }
  return (
    <>
      <Page href={partsAddress}>Parts to order</Page>
      <Page href={doneAddress}>Repairs made, beside their forecast</Page>
      {of.depots.map((depot) => (
        <Page key={depot} href={depotNoteAddress(depot)}>
          Note to {depot}
        </Page>
      ))}
      <File href={calendarAddress(null)}>Calendar of all depots</File>
      <File href={planFileAddress("bookings")}>Bookings as CSV</File>
      <File href={planFileAddress("job-cards")}>Job cards as CSV</File>
      <File href={planFileAddress("quotes")}>Quotes as CSV</File>
      <File href={planFileAddress("load")}>Load of each depot and week as CSV</File>
      <File href={planFileAddress("not-fitted")}>What found no room as CSV</File>
      <File href={planFileAddress("dropped")}>What was dropped as CSV</File>
      <File href={planFileAddress("waiting")}>What waits for a test as CSV</File>
    </>
  );
}

interface LinkProps {
  readonly href: string;
  readonly children: React.ReactNode;
}

const Page = ({ href, children }: LinkProps) => (
  <li>
    <AppLink href={href}>{children}</AppLink>
  </li>
);

const File = ({ href, children }: LinkProps) => (
  <li>
    <a href={href} download>
      {children}
    </a>
  </li>
);

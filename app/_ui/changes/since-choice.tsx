import Form from "next/form";
import { addDays } from "../../../lib/calendar.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import { AppLink } from "../app-link.client.tsx";
import { DepotChoice } from "../depot-choice.tsx";
import { type ChangesView, changesAddress, changesAddressFields, changesFileAddress } from "./address.ts";

const spans = [7, 30, 90] as const;

/** Since when, which depot, and the way the list leaves the screen. Works without script. */
export function SinceChoice(props: {
  readonly view: ChangesView;
  /** What "since" came to, and today where the fleet is. */
  readonly date: IsoDate;
  readonly today: IsoDate;
  readonly depots: readonly string[];
}) {
  const { view, today, depots } = props;
  const link = (since: ChangesView["since"], words: string) => (
    <AppLink
      key={since}
      variant="bare"
      href={changesAddress(view, { since })}
      scroll={false}
      {...(view.since === since ? { "aria-current": "true" as const } : {})}
    >
      {words}
    </AppLink>
  );
  return (
    <div className="list-controls changes-controls no-print">
      <nav className="segments" aria-label="Since when">
        {link("last-visit", "Last visit")}
        {spans.map((days) => link(addDays(today, -days), `${days} days`))}
      </nav>
      <Form action="/changes" prefetch={false} className="list-form" key={`since ${view.since} ${view.depot}`}>
        <Rest of={{ ...view, since: "last-visit" }} />
        <label>
          Since <input type="date" name="since" max={today} defaultValue={props.date} required />
        </label>
        <button type="submit" className="button-link">
          Show<span className="visually-hidden"> since that day</span>
        </button>
      </Form>
      {/* A form of its own: with the date in it, choosing a depot would turn the last visit into a day. */}
      <DepotChoice action="/changes" depot={view.depot} depots={depots} key={`depot ${view.since} ${view.depot}`}>
        <Rest of={{ ...view, depot: null }} />
      </DepotChoice>
      <a href={changesFileAddress(view)} download className="button-link">
        Download CSV
      </a>
    </div>
  );
}

/** What a form leaves as it is. */
const Rest = ({ of }: { readonly of: ChangesView }) =>
  changesAddressFields({ ...of, page: 1 }).map(([name, value]) => (
    <input key={name} type="hidden" name={name} value={value} />
  ));

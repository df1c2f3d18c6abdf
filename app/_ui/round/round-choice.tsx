import Form from "next/form";
import { AppLink } from "../app-link.client.tsx";
import { PrintButton } from "../print-button.client.tsx";
import { plainRoundView, type RoundView, reaches, roundAddress, roundFileAddress } from "./address.ts";

const reachWords = { 0: "Due now", 28: "4 weeks", 91: "3 months" } as const satisfies Record<RoundView["days"], string>;

/** How far ahead, which depot, and the ways the list leaves the screen. Works without script. */
export function RoundChoice({ view, depots }: { readonly view: RoundView; readonly depots: readonly string[] }) {
  return (
    <div className="round-controls no-print">
      <nav className="segments" aria-label="How far ahead">
        {reaches.map((days) => (
          <AppLink
            key={days}
            variant="bare"
            href={roundAddress({ depot: view.depot, days })}
            scroll={false}
            {...(view.days === days ? { "aria-current": "true" as const } : {})}
          >
            {reachWords[days]}
          </AppLink>
        ))}
      </nav>
      <Form action="/round" prefetch={false} className="round-form" key={`${view.depot} ${view.days}`}>
        {view.days !== plainRoundView.days && <input type="hidden" name="days" value={view.days} />}
        <label>
          Depot{" "}
          <select name="depot" defaultValue={view.depot ?? ""}>
            <option value="">All depots</option>
            {[...new Set([...depots, ...(view.depot === null ? [] : [view.depot])])].map((depot) => (
              <option key={depot}>{depot}</option>
            ))}
          </select>
        </label>
        <button type="submit" className="button-link">
          Show<span className="visually-hidden"> that depot</span>
        </button>
      </Form>
      <div className="round-tools">
        <a href={roundFileAddress(view)} download className="button-link">
          Download CSV
        </a>
        <PrintButton />
      </div>
    </div>
  );
}

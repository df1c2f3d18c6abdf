import { AppLink } from "../app-link.client.tsx";
import { DepotChoice } from "../depot-choice.tsx";
import { PrintButton } from "../print-button.client.tsx";
import { plainRoundView, type RoundView, reaches, roundAddress, roundFileAddress } from "./address.ts";

const reachWords = { 0: "Due now", 28: "4 weeks", 91: "3 months" } as const satisfies Record<RoundView["days"], string>;

/** How far ahead, which depot, and the ways the list leaves the screen. Works without script. */
export function RoundChoice({ view, depots }: { readonly view: RoundView; readonly depots: readonly string[] }) {
  return (
    <div className="list-controls no-print">
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
      <DepotChoice action="/round" depot={view.depot} depots={depots} key={`${view.depot} ${view.days}`}>
        {view.days !== plainRoundView.days && <input type="hidden" name="days" value={view.days} />}
      </DepotChoice>
      <div className="round-tools">
        <a href={roundFileAddress(view)} download className="button-link">
          Download CSV
        </a>
        <PrintButton />
      </div>
    </div>
  );
}

import { AppLink } from "../app-link.client.tsx";
import { type FleetView, fleetAddress } from "./address.ts";

/** How far the axis of dates looks ahead. */
export function SpanChoice({ view }: { readonly view: FleetView }) {
  return (
    <nav className="segments" aria-label="Years shown">
      {([1, 3, 5] as const).map((years) => (
        <AppLink
          key={years}
          variant="bare"
          href={fleetAddress(view, { years, page: view.page })}
          scroll={false}
          {...(years === view.years ? { "aria-current": "true" as const } : {})}
        >
          {years === 1 ? "1 year" : `${years} years`}
        </AppLink>
      ))}
    </nav>
  );
}

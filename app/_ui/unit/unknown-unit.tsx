import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";

/** Stands where a unit was asked for that is not known. */
export function UnknownUnit() {
  return (
    <div className="page">
      <h1 className="finding">No unit of this number is on the books.</h1>
      <EmptyState says="Look it up in the Fleet by any part of its number, engine serial, depot or model. A new unit appears with the first file that names it.">
        <AppLink href="/" variant="button">
          Search the Fleet
        </AppLink>
        <AppLink href="/import">Import a file</AppLink>
      </EmptyState>
    </div>
  );
}

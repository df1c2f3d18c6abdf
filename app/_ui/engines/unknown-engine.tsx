import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";

/** Stands where an engine was asked for that is not known. */
export function UnknownEngine() {
  return (
    <div className="page">
      <h1 className="finding">No engine of this number is on the books.</h1>
      <EmptyState says="Look it up in the list of engines by its number, its model or a unit that it was in.">
        <AppLink href="/engines" variant="button">
          All engines
        </AppLink>
      </EmptyState>
    </div>
  );
}

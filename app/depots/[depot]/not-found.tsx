import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { EmptyState } from "@/app/_ui/empty-state.tsx";

export default function UnknownDepot() {
  return (
    <div className="page">
      <h1 className="finding">No depot of this name is on the books.</h1>
      <EmptyState says="A depot appears with the first file that names it: a depots file, a units file, or results.">
        <AppLink href="/depots" variant="button">
          All depots
        </AppLink>
        <AppLink href="/import">Import a file</AppLink>
      </EmptyState>
    </div>
  );
}

import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { EmptyState } from "@/app/_ui/empty-state.tsx";

export default function ModelNotFound() {
  return (
    <div className="page">
      <h1 className="finding">No engine model of this id is known.</h1>
      <EmptyState says="It may have been undone with the import that told it, or the address is not quite right.">
        <AppLink href="/models" variant="filled">
          All engine models
        </AppLink>
      </EmptyState>
    </div>
  );
}

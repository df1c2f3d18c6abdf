import { AppLink } from "@/app/_ui/app-link.client.tsx";

export default function ImportNotFound() {
  return (
    <div className="page">
      <div className="error-note">
        <h1 className="finding">This import is not known.</h1>
        <p>It may have been discarded or cancelled. Nothing of it was kept.</p>
        <AppLink href="/import" variant="filled">
          See the last imports
        </AppLink>
      </div>
    </div>
  );
}

import type { Metadata } from "next";
import { AppLink } from "./_ui/app-link.client.tsx";

export const metadata: Metadata = { title: "Not found" };

export default function NotFound() {
  return (
    <div className="page">
      <div className="error-note">
        <h1 className="finding">There is nothing at this address.</h1>
        <p>
          The page may have been moved, or the unit goes by another number. Nothing was changed. The Fleet lists every
          unit that is known.
        </p>
        <AppLink href="/" variant="filled">
          Go to the Fleet
        </AppLink>
      </div>
    </div>
  );
}

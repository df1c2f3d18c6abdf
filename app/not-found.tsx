import type { Metadata } from "next";
import { headers } from "next/headers";
import { AppLink } from "./_ui/app-link.client.tsx";
import { UnknownEngine } from "./_ui/engines/unknown-engine.tsx";
import { unknownHeader } from "./_ui/known-address.ts";
import { UnknownUnit } from "./_ui/unit/unknown-unit.tsx";

export const metadata: Metadata = { title: "Not found" };

/** What is not there, in the words of what was looked for; the status was told by the proxy or by Next. */
export default async function NotFound() {
  const unknown = (await headers()).get(unknownHeader);
  if (unknown === "unit") return <UnknownUnit />;
  if (unknown === "engine") return <UnknownEngine />;
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

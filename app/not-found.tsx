import type { Metadata } from "next";
import { headers } from "next/headers";
import { foundNear } from "./_ui/find/find.ts";
import { isUnknown, unknownHeader, unknownNameHeader } from "./_ui/known-address.ts";
import { nameInAddress } from "./_ui/unit-address.ts";
import { UnknownPage } from "./_ui/unknown-page.tsx";

export const metadata: Metadata = { title: "Not found" };

/** What is not there, in the words of what was looked for; the status was told by the proxy or by Next. */
export default async function NotFound() {
  const told = await headers();
  const unknown = told.get(unknownHeader);
  if (!isUnknown(unknown)) return <UnknownPage unknown="address" near={[]} />;
  const name = nameInAddress(told.get(unknownNameHeader) ?? "") ?? "";
  return <UnknownPage unknown={unknown} near={await foundNear(unknown, name)} />;
}

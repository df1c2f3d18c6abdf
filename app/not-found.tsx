import type { Metadata } from "next";
import { headers } from "next/headers";
import { isUnknown, unknownHeader } from "./_ui/known-address.ts";
import { UnknownPage } from "./_ui/unknown-page.tsx";

export const metadata: Metadata = { title: "Not found" };

/** What is not there, in the words of what was looked for; the status was told by the proxy or by Next. */
export default async function NotFound() {
  const unknown = (await headers()).get(unknownHeader);
  return <UnknownPage unknown={isUnknown(unknown) ? unknown : "address"} />;
}

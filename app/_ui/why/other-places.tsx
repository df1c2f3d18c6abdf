import type { Explained } from "@/lib/explain/types.ts";
import { AppLink } from "../app-link.client.tsx";
import { whyAddress } from "../unit-address.ts";
import { sideInAddress } from "./address.ts";

const sideWords = { topEnd: "Top-end repair", bottomEnd: "Bottom-end repair" } as const;

/** The other dates of a unit that can be explained: of the other class of repair, and of each cylinder. */
export function OtherPlaces({ e, unit }: { readonly e: Explained; readonly unit: string }) {
  const sides = e.sides.filter((side) => side !== e.side);
  const cylinders = Array.from({ length: e.cylinders }, (_, i) => i + 1).filter((one) => one !== e.cylinder);
  if (sides.length === 0 && cylinders.length === 0 && e.decides) return null;
  return (
    <nav aria-label="Explain another date" className="why-others no-print">
      <span className="second">Explain</span>
      {!e.decides && <AppLink href={whyAddress(unit)}>What decides</AppLink>}
      {sides.map((side) => (
        <AppLink key={side} href={whyAddress(unit, { repair: sideInAddress[side] })}>
          {sideWords[side]}
        </AppLink>
      ))}
      {cylinders.map((cylinder) => (
        <AppLink key={cylinder} href={whyAddress(unit, { cylinder })}>
          Cylinder {cylinder}
        </AppLink>
      ))}
    </nav>
  );
}

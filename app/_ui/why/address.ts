import type { RepairSide, Wanted } from "@/lib/explain/types.ts";
import type { AddressParts } from "../compare/address.ts";
import type { Understood } from "../not-understood.tsx";

/** Names of the classes of repair in addresses. */
export const sideInAddress = { topEnd: "top-end", bottomEnd: "bottom-end" } as const satisfies Record<
  RepairSide,
  string
>;

const sides = Object.keys(sideInAddress) as readonly RepairSide[];

/** What of the address of Why this date is understood, of an engine with so many cylinders. */
export const understoodOfWhy = (cylinders: number): Understood => ({
  repair: (value) => sides.some((side) => sideInAddress[side] === value),
  cylinder: (value) => /^[1-9]\d?$/.test(value) && Number(value) <= cylinders,
});

/** What an address asks for; what it does not say, or says in a way that is not understood, is what decides. */
export function readWhyAddress(parts: AddressParts, cylinders: number): Wanted {
  const knows = understoodOfWhy(cylinders);
  const text = (name: "repair" | "cylinder"): string | null => {
    const value = parts[name];
    return typeof value === "string" && knows[name]?.(value) === true ? value : null;
  };
  const cylinder = text("cylinder");
  const repair = text("repair");
  return {
    side: sides.find((side) => sideInAddress[side] === repair),
    cylinder: cylinder === null ? undefined : Number(cylinder),
  };
}

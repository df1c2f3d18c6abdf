import type { Workshop } from "../schema/workshop.ts";
import { listWords } from "../wording.ts";

/** What is known of a fleet beside the document; `bays` null: the depot tells none of its own. */
export interface FleetKnown {
  readonly units: ReadonlySet<string>;
  readonly depots: readonly { readonly depot: string; readonly bays: number | null }[];
}

/** What holds, but may well not be meant, of prices and workshops: sentences that say what a plan makes of it. Nothing is refused for it. */
export function workshopCautions(
  { groups, anyDepot }: Pick<Workshop, "groups" | "anyDepot">,
  { units: fleet, depots }: FleetKnown,
): readonly string[] {
  return [
    ...(anyDepot.bays === 0 ? [noBays(depots)] : []),
    ...groups.flatMap(({ name, units, mostOut }) => {
      const most = `no more than ${mostOut} of all units ${mostOut === 1 ? "is" : "are"}`;
      const isAll = fleet.size > 0 && [...fleet].every((unit) => units.includes(unit));
      return [
        ...(isAll
          ? [`The group ${name} names every unit of the fleet: ${most} planned out in a week, at all depots together.`]
          : []),
        ...(mostOut >= units.length
          ? [`The group ${name} limits nothing: all of its ${units.length} units may be out at once.`]
          : []),
      ];
    }),
  ];
}

function noBays(depots: FleetKnown["depots"]): string {
  const own = depots.flatMap(({ depot, bays }) => (bays === null ? [] : [depot]));
  const without = depots.flatMap(({ depot, bays }) => (bays === null ? [depot] : []));
  if (without.length === 0 && own.length > 0)
    return `Any depot’s workshop has no bays. Each depot has its own on its page, so this holds for none now.`;
  const told = own.length === 0 ? "" : ` ${listWords(own)} ${own.length === 1 ? "has its" : "have their"} own.`;
  return `Any depot’s workshop has no bays: no repair is planned at ${without.length === 0 ? "any depot" : listWords(without)} until bays are told there, on the depot’s page.${told}`;
}

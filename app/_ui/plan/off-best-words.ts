import { resourceKey } from "../../../lib/plan/overloads.ts";
import { mondayOf } from "../../../lib/plan/week-costs.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptBooking, OffBest, Overload, Resource } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords, sentenceWords } from "../../../lib/wording.ts";
import { amountWords, weekWords } from "./plan-words.ts";

interface Told {
  readonly of: OffBest;
  readonly money: (amount: number) => string;
  /** Who takes what of the plan as it stands, by `resourceKey`: `takersOf`, asked once for all that is told. */
  readonly takers: ReadonlyMap<string, readonly KeptBooking[]>;
  readonly firstMonday: IsoDate;
  readonly asOf: IsoDate;
}

/** Other bookings named as those that take what is missing. */
const holdersNamed = 3;

/** How far a booking stands above its best week, why, and what would let it into a cheaper one, as sentences. */
export function offBestWords(f: Formats, booking: KeptBooking, told: Told): string {
  const { of, money, asOf } = told;
  const stands = `${weekWords(booking.start, asOf)} costs ${money(of.extra)} more than ${weekWords(of.start, asOf)}, its best`;
  const why = booking.isPinned ? "; it is pinned there." : ".";
  return [sentenceWords(`${stands}${why}`), ...of.ways.map((way) => wayWords(f, booking, { way, told }))].join(" ");
}

function wayWords(
  f: Formats,
  booking: KeptBooking,
  { way: { start, saves, lacks }, told }: { readonly way: OffBest["ways"][number]; readonly told: Told },
): string {
  const week = weekWords(start, told.asOf);
  const saving = `saves ${told.money(saves)}`;
  if (lacks.length === 0)
    return booking.isPinned
      ? `Without its pin there is room in ${week}, which ${saving}.`
      : `There is room in ${week}, which ${saving}: the plan was not reckoned to the last.`;
  const missing = listWords(lacks.map((lack) => lackWords(f, lack, told)));
  const by = holders(booking, lacks, told.takers);
  const taken = by.length === 0 ? "" : ` (taken by ${listWords(by)})`;
  return `${sentenceWords(week)} ${saving} and lacks ${missing}${taken}.`;
}

/** "1 bay day at Highcol in week 43" */
function lackWords(f: Formats, { resource, capacity, used }: Overload, { firstMonday, asOf }: Told): string {
  const week = weekWords(mondayOf(firstMonday, resource.week), asOf);
  if (resource.kind === "unit") return `the unit itself in ${week}, in for its other repair`;
  const amount = amountWords(f, resource, used - capacity);
  return `${amount} ${whereWords(resource)} in ${week}`;
}

function whereWords(resource: Exclude<Resource, { readonly kind: "unit" }>): string {
  if (resource.kind === "out-together") return `allowed by the group ${resource.group}`;
  return resource.kind === "spares" ? `of ${resource.engineModel}` : `at ${resource.depot}`;
}

/** Units whose bookings take what is missing, pinned ones first, then by week. */
function holders(booking: KeptBooking, lacks: readonly Overload[], takers: Told["takers"]): readonly string[] {
  const all = new Set(lacks.flatMap(({ resource }) => takers.get(resourceKey(resource)) ?? []));
  return [...all]
    .filter((other) => !(other.unit === booking.unit && other.scope === booking.scope))
    .toSorted((a, b) => Number(b.isPinned) - Number(a.isPinned) || a.week - b.week || (a.unit < b.unit ? -1 : 1))
    .slice(0, holdersNamed)
    .map(({ unit, isPinned }) => (isPinned ? `${unit}, pinned` : unit));
}

import { priceNews } from "../../../lib/budget/bridge-prices.ts";
import type { Workshop } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";

/** What a plan was made from, by the parts of its basis. */
const partNames = {
  facts: "facts of the fleet (tests, repairs, readings, limits)",
  assessed: "reports",
  settings: "settings",
  depots: "depots",
  workshop: "prices and workshops",
  chosen: "what was pinned or dropped",
  forecast: "the way of forecasting",
  planFormat: "the way of planning",
} as const;

/** Reports follow facts, settings and depots: told by themselves only where none of these moved. */
const causesOfReports = ["facts", "settings", "depots", "forecast"];

/**
 * By what a plan is older than what stands now, as a sentence for a paper that is signed; null: it is not.
 * @param was the basis that the plan was made from, and its workshop document; `now`: those that stand
 */
export function planAgeWords(
  f: Formats,
  was: { readonly basis: string; readonly workshop: Workshop; readonly asOf: string },
  now: { readonly basis: string; readonly workshop: Workshop },
): string | null {
  if (was.basis === now.basis) return null;
  const [a, b] = [partsOf(was.basis), partsOf(now.basis)];
  const moved = Object.keys(partNames).filter((part) => JSON.stringify(a[part]) !== JSON.stringify(b[part]));
  const told = moved.filter((part) => part !== "assessed" || !moved.some((one) => causesOfReports.includes(one)));
  const prices = priceNews(
    { workshop: was.workshop, asOf: was.asOf, units: [] },
    { workshop: now.workshop, asOf: was.asOf, units: [] },
  );
  const parts = told.map((part) => {
    const name = partNames[part as keyof typeof partNames];
    return part === "workshop" && prices.length > 0 ? `${name} (${f.words(listWords(prices))})` : name;
  });
  const since = parts.length === 0 ? "what it was made from" : listWords(parts);
  return `The plan of ${f.date(was.asOf)} is older than ${since}. Its bookings and the cost of their work are as they were then; the money before is of today. Replan before this is signed.`;
}

function partsOf(basis: string): Readonly<Record<string, unknown>> {
  try {
    return JSON.parse(basis) as Record<string, unknown>;
  } catch {
    // Kept by a version that wrote it otherwise.
    return {};
  }
}

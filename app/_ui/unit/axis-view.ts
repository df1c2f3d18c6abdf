import type { Domain } from "./axis.ts";

/**
 * The part of the meter axis that a chart shows. It lives in the page's address as whole figures of the engine's wear
 * meter, in the unit that the meter is recorded in, whatever units the viewer reads.
 */
export interface AskedView {
  readonly from: number | null;
  readonly to: number | null;
}

/** What can be shown of an axis: `whole` where nothing is asked for, never more than `reach`. */
export interface Extent {
  readonly whole: Domain;
  readonly reach: Domain;
}

const wholeFigure = /^-?\d{1,9}$/;

/** Reads `from` and `to` of an address; what is no whole figure counts as not asked for. */
export function readAskedView(field: (name: "from" | "to") => unknown): AskedView {
  const read = (name: "from" | "to") => {
    const value = field(name);
    return typeof value === "string" && wholeFigure.test(value) ? Number(value) : null;
  };
  return { from: read("from"), to: read("to") };
}

const width = ([from, to]: Domain) => to - from;

/** No narrower than a hundredth of all there is, nor than two of the meter's units. */
const narrowest = ({ reach }: Extent) => Math.min(width(reach), Math.max(2, width(reach) / 100));

/** The nearest domain that is neither too narrow nor out of reach; its middle stays where it can. */
function fitted(extent: Extent, [from, to]: Domain): Domain {
  const { reach } = extent;
  const span = Math.min(width(reach), Math.max(narrowest(extent), to - from));
  const start = Math.min(reach[1] - span, Math.max(reach[0], (from + to - span) / 2));
  return [start, start + span];
}

/** The domain that an address asks for; an end left open is that of the whole, and ends that cross ask for nothing. */
export function viewedDomain(extent: Extent, { from, to }: AskedView): Domain {
  const { whole } = extent;
  if (from === null && to === null) return whole;
  const asked: Domain = [from ?? whole[0], to ?? whole[1]];
  return asked[0] < asked[1] ? fitted(extent, asked) : whole;
}

/** A domain as an address asks for it: to whole figures, and nothing where it is the whole. */
export function askedView({ whole }: Extent, [from, to]: Domain): AskedView {
  const [f, t] = [Math.round(from), Math.round(to)];
  const isWhole = f === Math.round(whole[0]) && t === Math.round(whole[1]);
  return isWhole ? { from: null, to: null } : { from: f, to: t };
}

/** Closer (`times` above 1) or wider, with what stands at `at` staying where it is. */
export function zoomed(extent: Extent, [from, to]: Domain, { times, at }: { times: number; at: number }): Domain {
  const least = narrowest(extent) / (to - from);
  const scale = Math.min(width(extent.reach) / (to - from), Math.max(least, 1 / times));
  return fitted(extent, [at - (at - from) * scale, at + (to - at) * scale]);
}

/** Later by a share of what is shown; earlier where it is negative. */
export function moved(extent: Extent, domain: Domain, share: number): Domain {
  const by = width(domain) * share;
  return fitted(extent, [domain[0] + by, domain[1] + by]);
}

/** What keeps its place as one zooms by a button: today where it is in view, else the middle. */
export const zoomCentre = ([from, to]: Domain, today: number): number =>
  today > from && today < to ? today : (from + to) / 2;

/** Whether two domains are one to the eye and to the address. */
export const sameDomain = (a: Domain, b: Domain): boolean =>
  Math.round(a[0]) === Math.round(b[0]) && Math.round(a[1]) === Math.round(b[1]);

/** The fields of an address with the view in place of what they say of it; canonical: the view comes last. */
export function withView(fields: Iterable<readonly [string, string]>, { from, to }: AskedView): string {
  const next = new URLSearchParams([...fields].filter(([name]) => name !== "from" && name !== "to").map((f) => [...f]));
  if (from !== null) next.set("from", String(from));
  if (to !== null) next.set("to", String(to));
  return next.toString();
}

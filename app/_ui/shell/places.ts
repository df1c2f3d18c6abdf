interface Place {
  readonly href: string;
  readonly title: string;
  /** What one finds there, in a few words; the search looks in them as well. */
  readonly says: string;
}

/** The pages that the header leads to, in order. A page is named here once it exists. */
export const places: readonly Place[] = [
  { href: "/", title: "Fleet", says: "who needs which repair, and when: counts, bands, the forecast table" },
  {
    href: "/plan",
    title: "Plan",
    says: "repairs in workshop weeks: bookings, load, what waits, can it wait, order by",
  },
  {
    href: "/budget",
    title: "Budget",
    says: "what to hold for the fiscal year: money by month with ranges, why it moved, what was spent, frozen budgets",
  },
  {
    href: "/compare",
    title: "Compare",
    says: "a unit beside the band of its sisters, since new or since a repair",
  },
  {
    href: "/record",
    title: "Track record",
    says: "how past forecasts turned out: ranges held, errors beside simpler forecasts, the worst misses",
  },
  { href: "/import", title: "Import", says: "bring in files, undo an import, samples to download, the demo fleet" },
  {
    href: "/models",
    title: "Engine models",
    says: "limits, spread, usual tester, test intervals, repair costs, gasket bridges, who changed them",
  },
  { href: "/depots", title: "Depots", says: "altitude, bays and hours, peak and closed weeks" },
  {
    href: "/settings",
    title: "Settings",
    says: "name and time zone, lead time, chances of the bands, test intervals",
  },
];

/** Pages that others lead to; the foot of every page names them, and the search finds them too. */
export const pagesBeside: readonly Place[] = [
  { href: "/plan/compare", title: "Compare plans", says: "two plans side by side: what moved, what it costs" },
  { href: "/changes", title: "What changed", says: "units whose band or window moved since a date or the last visit" },
  {
    href: "/round",
    title: "Test round",
    says: "units due for a test, with last values and hours: tick off, print, download",
  },
  {
    href: "/budget/what-if",
    title: "What if",
    says: "the budget with repairs postponed, capacity cut, other limits or use, an exchange engine bought",
  },
  {
    href: "/budget/report",
    title: "Budget report",
    says: "two pages to print: the plan, the money, the units that matter most, how good past forecasts were",
  },
  {
    href: "/import/layouts",
    title: "Layouts",
    says: "how the columns of workshops’ own files are read: kept layouts, change, withdraw, download",
  },
  { href: "/engines", title: "Engines", says: "all engines by serial number, and the units that they were in" },
  { href: "/compare/rates", title: "Rates", says: "how fast engines decline, by model and depot" },
  { href: "/compare/testers", title: "Testers", says: "tester against tester: does one instrument read high or low" },
  {
    href: "/causes/calls",
    title: "Calls and findings",
    says: "class of repair called beside what the strip-down found: how often each call was right",
  },
  {
    href: "/plan/parts",
    title: "Parts to order",
    says: "what the plan’s bookings ask for: by the day on which to order, by week of need",
  },
  {
    href: "/plan/done",
    title: "Repairs beside forecast",
    says: "hours, cost and days of repairs made, beside what the plan expected of them",
  },
  {
    href: "/settings/workshop",
    title: "Prices and workshops",
    says: "currency, labour rate, costs of a day out of service, spare engines, groups, any depot’s workshop",
  },
  { href: "/words", title: "Words of the trade", says: "glossary: what the words on these pages mean" },
  { href: "/find", title: "Find", says: "search units, engines, depots, models, pages and words" },
];

export const pagesToFind: readonly Place[] = [...places, ...pagesBeside];

const ofTheFleet = ["/units", "/engines", "/changes", "/round"];

const isAtOrBelow = (href: string, pathname: string): boolean => pathname === href || pathname.startsWith(`${href}/`);

/** Whether a place is the one being looked at; units, engines and what changed belong to the Fleet. */
export function isHere(href: string, pathname: string): boolean {
  if (href !== "/") return isAtOrBelow(href, pathname);
  return pathname === "/" || ofTheFleet.some((below) => isAtOrBelow(below, pathname));
}

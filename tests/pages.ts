/** Every page of the app, once: what the browser tests look at and what the bench asks for. */

interface Look {
  readonly address: string;
  /** Words that the page's finding holds. */
  readonly says: string;
}

interface PageOfApp {
  /** Its folder below `app/`; "" is the front page. */
  readonly route: string;
  /** What it says while the store is empty. */
  readonly empty: readonly Look[];
  /** With the demo fleet: each state of it that is drawn in a way of its own. */
  readonly demo: readonly Look[];
  /** Its address with the bench's fleet; null: what it shows does not grow with a fleet. */
  readonly bench: string | null;
}

export const pages: readonly PageOfApp[] = [
  {
    route: "",
    empty: [{ address: "/", says: "No tests yet" }],
    demo: [
      { address: "/", says: "units" },
      { address: "/?search=no+such+engine", says: "units" },
      { address: "/?group=depot", says: "units" },
      { address: "/?group=band&columns=depot+class+status+serial+top-chance+bottom-chance&rows=12", says: "units" },
    ],
    bench: "/",
  },
  {
    route: "units/[unit]",
    empty: [{ address: "/units/Z-999", says: "No unit" }],
    demo: [
      // A step in two neighbours; a V engine with a question; opposed cylinders, read as what is held of 80.
      { address: "/units/V-109", says: "Past its limit" },
      { address: "/units/P-402", says: "eakage" },
      { address: "/units/A-702?measure=leak-down&cylinder=1", says: "eakage" },
      // Never tested.
      { address: "/units/H-306", says: "No test" },
    ],
    bench: "/units/U-7",
  },
  {
    route: "units/[unit]/sheet",
    empty: [{ address: "/units/Z-999/sheet", says: "No unit" }],
    demo: [
      { address: "/units/P-401/sheet", says: "eakage" },
      { address: "/units/H-306/sheet", says: "No test" },
    ],
    bench: "/units/U-7/sheet",
  },
  {
    route: "units/[unit]/why",
    empty: [{ address: "/units/Z-999/why", says: "No unit" }],
    demo: [
      // A likely date; no late end and a fault; past its limit; none foreseen; never tested.
      { address: "/units/V-104/why", says: "decides" },
      { address: "/units/A-703/why", says: "decides" },
      { address: "/units/V-109/why", says: "past its limit" },
      { address: "/units/V-106/why", says: "No date" },
      { address: "/units/H-306/why", says: "no test yet" },
    ],
    bench: "/units/U-7/why",
  },
  {
    route: "units/[unit]/test",
    empty: [{ address: "/units/Z-999/test", says: "No unit" }],
    demo: [
      { address: "/units/V-104/test", says: "Enter a test of V-104" },
      { address: "/units/V-104/test?sent=none", says: "Enter a test of V-104" },
    ],
    bench: "/units/U-7/test",
  },
  {
    route: "units/[unit]/test/paper",
    empty: [{ address: "/units/Z-999/test/paper", says: "No unit" }],
    demo: [
      { address: "/units/P-401/test/paper", says: "to fill in by hand" },
      // In aircraft, on leak-down alone; never tested.
      { address: "/units/A-702/test/paper", says: "to fill in by hand" },
      { address: "/units/H-306/test/paper?test=leak-down", says: "to fill in by hand" },
    ],
    bench: "/units/U-7/test/paper",
  },
  {
    route: "units/[unit]/record",
    empty: [{ address: "/units/Z-999/record", says: "No unit" }],
    demo: [
      { address: "/units/V-109/record", says: "Record of V-109: repair" },
      { address: "/units/V-109/record?what=check", says: "other evidence" },
      { address: "/units/V-109/record?what=meter", says: "meter reading" },
      { address: "/units/V-109/record?what=new-meter", says: "new meter" },
      { address: "/units/H-305/record?what=engine", says: "engine swap" },
      { address: "/units/V-109/record?what=status", says: "stop, release, retire" },
    ],
    bench: "/units/U-7/record",
  },
  {
    route: "units/[unit]/record/test",
    empty: [{ address: "/units/Z-999/record/test", says: "No unit" }],
    demo: [{ address: "/units/V-109/record/test?date=1999-01-01&test=leak-down&attempt=1", says: "is not on file" }],
    bench: null,
  },
  {
    route: "plan",
    empty: [{ address: "/plan", says: "No plan yet" }],
    demo: [
      { address: "/plan", says: "booked" },
      { address: "/plan?weeks=26&unit=H-304&scope=top-end&to=2026-10-12", says: "booked" },
      // Not booked; not to be planned.
      { address: "/plan?unit=P-404&scope=top-end", says: "booked" },
      { address: "/plan?unit=H-306", says: "booked" },
    ],
    bench: "/plan",
  },
  {
    route: "plan/compare",
    empty: [{ address: "/plan/compare", says: "no two plans" }],
    demo: [{ address: "/plan/compare", says: "plan" }],
    bench: null,
  },
  {
    route: "engines",
    empty: [{ address: "/engines", says: "No engine is known yet" }],
    demo: [
      { address: "/engines", says: "Wear follows the engine" },
      { address: "/engines?search=no+such", says: "Wear follows the engine" },
    ],
    bench: "/engines",
  },
  {
    route: "engines/[engine]",
    empty: [{ address: "/engines/none", says: "No engine of this number" }],
    demo: [
      // Through two units; in none now; an aircraft's.
      { address: "/engines/QD6-4315", says: "is in H-305" },
      { address: "/engines/QD6-4327", says: "in no unit" },
    ],
    bench: "/engines/BE-7",
  },
  {
    route: "changes",
    empty: [{ address: "/changes", says: "nothing to compare" }],
    demo: [
      { address: "/changes", says: "changed since" },
      { address: "/changes?since=2999-01-01&kind=window&depot=Midfell", says: "Nothing changed at Midfell since" },
    ],
    bench: "/changes",
  },
  {
    route: "round",
    empty: [{ address: "/round", says: "No unit is known yet" }],
    demo: [
      { address: "/round", says: "due for a test by" },
      { address: "/round?depot=Midfell&days=0", says: "due for a test now" },
      { address: "/round?depot=Nowhere&days=0", says: "No unit of Nowhere is due" },
    ],
    bench: "/round",
  },
  {
    route: "budget",
    empty: [{ address: "/budget", says: "nothing to budget" }],
    demo: [
      { address: "/budget", says: "as likely to cost more than" },
      { address: "/budget?span=quarter&by=model", says: "as likely to cost more than" },
    ],
    bench: "/budget",
  },
  {
    route: "budget/what-if",
    empty: [{ address: "/budget/what-if", says: "nothing to budget" }],
    demo: [{ address: "/budget/what-if", says: "What if" }],
    bench: "/budget/what-if",
  },
  {
    route: "budget/report",
    empty: [{ address: "/budget/report", says: "nothing to budget" }],
    demo: [{ address: "/budget/report", says: "as likely to cost more than" }],
    bench: "/budget/report",
  },
  {
    route: "compare",
    empty: [{ address: "/compare", says: "Nothing to compare yet" }],
    demo: [
      { address: "/compare", says: "stands out from its sisters" },
      { address: "/compare?unit=V-104&unit=V-102&of=each&cylinder=1&cylinder=4", says: "sisters" },
      // No engine twice tested since: no line, no band.
      { address: "/compare?model=h%3Aair-1-a&since=bottom-end&unit=Z-999", says: "sisters" },
    ],
    bench: "/compare?unit=U-7",
  },
  {
    route: "compare/rates",
    empty: [{ address: "/compare/rates", says: "Nothing to compare yet" }],
    demo: [
      { address: "/compare/rates", says: "the fastest tenth" },
      { address: "/compare/rates?measure=compression-dry&of=weakest", says: "the fastest tenth" },
    ],
    bench: "/compare/rates",
  },
  {
    route: "compare/testers",
    empty: [{ address: "/compare/testers", says: "Nothing to compare yet" }],
    demo: [{ address: "/compare/testers", says: "Too few engines" }],
    bench: "/compare/testers",
  },
  {
    route: "record",
    empty: [{ address: "/record", says: "No forecast can be judged yet" }],
    demo: [
      { address: "/record", says: "held" },
      { address: "/record?measure=compression-dry&by=tester", says: "held" },
    ],
    bench: "/record",
  },
  {
    route: "models",
    empty: [{ address: "/models", says: "No engine model is known yet" }],
    demo: [{ address: "/models", says: "engine models" }],
    bench: "/models",
  },
  {
    route: "models/new",
    empty: [{ address: "/models/new", says: "Add an engine model" }],
    demo: [],
    bench: "/models/new",
  },
  {
    route: "models/[model]",
    empty: [{ address: "/models/none", says: "No engine model of this id" }],
    demo: [
      { address: "/models/petrol-4-a", says: "Judged on" },
      { address: "/models/petrol-v8-a", says: "Judged on" },
      // Opposed, on leak-down alone, in aircraft.
      { address: "/models/air-flat4-a", says: "compression is not judged" },
    ],
    bench: "/models/bench-4",
  },
  {
    route: "models/[model]/edit",
    empty: [{ address: "/models/none/edit", says: "No engine model of this id" }],
    demo: [{ address: "/models/petrol-v8-a/edit", says: "Change petrol-v8-a" }],
    bench: "/models/bench-4/edit",
  },
  {
    route: "models/[model]/evidence",
    empty: [{ address: "/models/none/evidence", says: "No engine model of this id" }],
    demo: [{ address: "/models/petrol-4-a/evidence", says: "What each finding says of the causes in petrol-4-a" }],
    bench: "/models/bench-4/evidence",
  },
  {
    route: "causes/calls",
    empty: [{ address: "/causes/calls", says: "No strip-down finding is on file yet" }],
    demo: [
      { address: "/causes/calls", says: "opened" },
      // Without a strip-down yet; unknown.
      { address: "/causes/calls?model=air-1-a", says: "No strip-down finding of air-1-a is on file yet" },
      { address: "/causes/calls?model=no-such-model", says: "No engine model no-such-model is on file" },
    ],
    bench: "/causes/calls",
  },
  {
    route: "depots",
    empty: [{ address: "/depots", says: "No depot" }],
    demo: [{ address: "/depots", says: "depot" }],
    bench: "/depots",
  },
  {
    route: "depots/[depot]",
    empty: [{ address: "/depots/Nowhere", says: "No depot of this name" }],
    demo: [{ address: "/depots/Highcol", says: "Highcol" }],
    bench: "/depots/Northfold",
  },
  {
    route: "depots/[depot]/sheets",
    empty: [{ address: "/depots/Nowhere/sheets", says: "No depot of this name" }],
    demo: [
      { address: "/depots/Lowmarsh/sheets?weeks=13", says: "to be tested by" },
      { address: "/depots/Highcol/sheets", says: "to be tested now" },
    ],
    bench: "/depots/Northfold/sheets",
  },
  {
    route: "plan/[unit]/card",
    empty: [{ address: "/plan/Z-999/card", says: "No unit" }],
    // Until the demo fleet's first plan is made, these say that there is none.
    demo: [
      { address: "/plan/V-109/card", says: "Job card of V-109" },
      { address: "/plan/H-306/card", says: "Job card of H-306" },
    ],
    bench: "/plan/U-7/card",
  },
  {
    route: "plan/[unit]/quote",
    empty: [{ address: "/plan/Z-999/quote", says: "No unit" }],
    demo: [{ address: "/plan/V-109/quote", says: "Quote for V-109" }],
    bench: "/plan/U-7/quote",
  },
  {
    route: "plan/depots/[depot]/note",
    empty: [{ address: "/plan/depots/Nowhere/note", says: "No depot of this name" }],
    demo: [{ address: "/plan/depots/Highcol/note", says: "Note to Highcol" }],
    bench: "/plan/depots/Northfold/note",
  },
  {
    route: "plan/parts",
    empty: [{ address: "/plan/parts", says: "Parts to order" }],
    demo: [
      { address: "/plan/parts", says: "Parts to order" },
      { address: "/plan/parts?depot=Lowmarsh", says: "Parts to order" },
    ],
    bench: "/plan/parts",
  },
  {
    route: "plan/done",
    empty: [{ address: "/plan/done", says: "that a plan had booked" }],
    demo: [{ address: "/plan/done", says: "that a plan had booked" }],
    bench: "/plan/done",
  },
  {
    route: "settings",
    empty: [{ address: "/settings", says: "The fleet is told for today" }],
    demo: [{ address: "/settings", says: "The fleet is told as of" }],
    bench: "/settings",
  },
  {
    route: "settings/workshop",
    empty: [{ address: "/settings/workshop", says: "No currency is named" }],
    demo: [{ address: "/settings/workshop", says: "an hour of labour costs 58" }],
    bench: "/settings/workshop",
  },
  {
    route: "find",
    empty: [{ address: "/find?q=none", says: "Nothing is found" }],
    demo: [
      { address: "/find", says: "Find a unit" },
      { address: "/find?q=v-10", says: "found for" },
    ],
    bench: "/find?q=u-19",
  },
  { route: "words", empty: [{ address: "/words", says: "What the words" }], demo: [], bench: "/words" },
  {
    route: "import",
    empty: [{ address: "/import", says: "No engine is known yet" }],
    demo: [{ address: "/import", says: "Bring in new files" }],
    bench: "/import",
  },
  {
    route: "import/layouts",
    empty: [{ address: "/import/layouts", says: "layout" }],
    demo: [],
    bench: "/import/layouts",
  },
  {
    route: "import/layouts/[layout]",
    empty: [{ address: "/import/layouts/none", says: "No layout of this name" }],
    demo: [],
    bench: null,
  },
  {
    route: "import/layouts/[layout]/edit",
    empty: [{ address: "/import/layouts/none/edit", says: "No layout of this name" }],
    demo: [],
    bench: null,
  },
  {
    route: "import/[import]",
    empty: [{ address: "/import/none", says: "not known" }],
    demo: [],
    bench: null,
  },
  {
    route: "import/[import]/columns",
    empty: [{ address: "/import/none/columns?file=1", says: "not known" }],
    demo: [],
    bench: null,
  },
];

/** The frame with a sentence in it: the least that a page of the app costs. */
export const emptyPage = { address: "/no/such/page", says: "nothing at this address" } as const satisfies Look;

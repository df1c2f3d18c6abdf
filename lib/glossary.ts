/** The words of the trade, one line each, as the app uses them. Own words; common practice, no source. */

interface Entry {
  readonly word: string;
  readonly meaning: string;
  /** Other words that people look it up by. */
  readonly also?: string;
}

const entries = {
  unit: { word: "unit", meaning: "A numbered vehicle or machine of the fleet.", also: "vehicle machine fleet number" },
  engine: {
    word: "engine",
    meaning: "Known by its serial number; it may move from unit to unit, and its wear goes with it.",
    also: "serial number motor",
  },
  "engine-model": {
    word: "engine model",
    meaning: "What engines of one type share: their cylinders, wear limits, tester, test interval and repair costs.",
    also: "type",
  },
  meter: {
    word: "meter",
    meaning: "What counts a unit’s work: hours, kilometres or miles.",
    also: "odometer hours distance",
  },
  "meter-reset": {
    word: "meter reset",
    meaning: "A new meter, or one set back. The wear of the engine goes on where it was.",
    also: "new odometer",
  },
  test: {
    word: "test",
    meaning: "All cylinders of an engine measured on one occasion, with one instrument.",
    also: "measurement",
  },
  reading: { word: "reading", meaning: "The value of one cylinder in one test.", also: "value" },
  "set-up": {
    word: "set-up",
    meaning: "The conditions of a test: engine warm or cold, throttle, cranking speed, altitude, tester.",
    also: "conditions",
  },
  tester: {
    word: "tester",
    meaning: "The instrument of a leak-down test. Its orifice and supply pressure decide what a leak reads.",
    also: "instrument gauge",
  },
  orifice: {
    word: "orifice",
    meaning: "The narrow bore in a leak-down tester that the air passes; a wider one reads less leakage.",
    also: "restrictor bore",
  },
  supply: {
    word: "supply",
    meaning: "The regulated air pressure that a leak-down tester feeds to the cylinder.",
    also: "supply pressure regulator",
  },
  "held-pressure": {
    word: "held pressure",
    meaning: "What a cylinder keeps of the supply pressure.",
    also: "differential",
  },
  leakage: {
    word: "leakage",
    meaning: "The share of the supply pressure that is lost: supply less held pressure, divided by supply.",
    also: "leak",
  },
  "leak-down": {
    word: "leak-down",
    meaning: "Air is fed to a cylinder with its piston at the top; what escapes, and where it is heard, tells of wear.",
    also: "leakdown cylinder leakage test",
  },
  "heard-at": {
    word: "heard at",
    meaning: "Where the air of a leak-down test comes out. It says more of the cause than how much comes out.",
    also: "hiss escapes",
  },
  "dry-compression": {
    word: "dry compression",
    meaning: "The pressure that cranking builds up in a cylinder, without oil put in.",
    also: "compression test",
  },
  "wet-compression": {
    word: "wet compression",
    meaning: "Compression again with a little oil in the cylinder: a rise points at the rings.",
    also: "oil",
  },
  "first-stroke": {
    word: "first stroke",
    meaning: "The first kick of the gauge in a compression test; low and then rising points at the rings.",
    also: "kick",
  },
  "cranking-speed": {
    word: "cranking speed",
    meaning: "How fast the starter turns the engine. Slow cranking lowers every compression value.",
    also: "rpm battery starter",
  },
  tdc: {
    word: "TDC",
    meaning: "Top dead centre: the piston at its top with both valves shut, where leakage is measured.",
    also: "top dead centre",
  },
  spread: {
    word: "spread",
    meaning: "How far the lowest cylinder lies from the highest, or from the mean, as the engine model says.",
    also: "difference balance",
  },
  neighbours: {
    word: "neighbours",
    meaning: "Cylinders that share a bridge of the head gasket, so that one may blow into the other.",
    also: "gasket bridge adjacent",
  },
  baseline: {
    word: "baseline",
    meaning: "The level after break-in or after a repair, from which wear is counted.",
    also: "break-in start",
  },
  level: {
    word: "level",
    meaning: "The best estimate of what a cylinder would read now, less what the tests got wrong.",
    also: "estimate",
  },
  rate: { word: "rate", meaning: "How much the level changes over hours or distance.", also: "decline slope wear" },
  watch: {
    word: "watch",
    meaning:
      "The band before plan: at its watch limit, or a crossing within the lead time is possible. Test more often.",
    also: "band",
  },
  plan: {
    word: "plan",
    meaning: "At its plan limit, or a crossing within the lead time is likely enough to plan the repair.",
    also: "band",
  },
  "past-limit": {
    word: "past limit",
    meaning: "At or beyond the wear limit of the engine model now.",
    also: "band over exceeded",
  },
  sound: {
    word: "sound",
    meaning: "Nothing to do before the next test. It is no release to service.",
    also: "band",
  },
  crossing: { word: "crossing", meaning: "The first time that a level meets its limit.", also: "limit" },
  window: {
    word: "window",
    meaning: "From early (1 in 10 before it) over likely (1 in 2) to late (9 in 10): when a crossing falls due.",
    also: "early likely late forecast range P10 P50 P90",
  },
  usage: { word: "use", meaning: "What a unit runs in a week; it turns distance or hours into dates.", also: "usage" },
  "top-end": {
    word: "top-end",
    meaning: "Work on the head: valves, seats, gasket and cam drive.",
    also: "head valve job repair",
  },
  "bottom-end": {
    word: "bottom-end",
    meaning: "Work on rings, pistons and bores, and the bearings when open.",
    also: "rings pistons overhaul repair",
  },
  "blow-by": { word: "blow-by", meaning: "Gas that passes the rings into the crankcase.", also: "crankcase gas" },
  "doubtful-test": {
    word: "doubtful test",
    meaning: "A test that is kept and shown, and not used or weighed less, because something about it was off.",
    also: "set aside outlier",
  },
  "re-test": { word: "re-test", meaning: "The same engine tested again to settle a doubt.", also: "repeat" },
  "strip-down-finding": {
    word: "strip-down finding",
    meaning: "What was found worn or broken once the engine was open.",
    also: "found cause",
  },
  float: { word: "float", meaning: "A spare engine that goes in while the unit’s own is repaired.", also: "spare" },
  core: { word: "core", meaning: "The engine that was taken out, to be rebuilt or handed in.", also: "removed" },
  "bay-day": { word: "bay day", meaning: "A repair bay taken up for one day.", also: "workshop capacity" },
  "lead-time": {
    word: "lead time",
    meaning: "How long ahead work or parts have to be arranged.",
    also: "planning parts order",
  },
  "blackout-week": {
    word: "closed week",
    meaning: "A week in which a depot does no repairs.",
    also: "blackout shut holiday",
  },
  "peak-week": {
    word: "peak week",
    meaning: "A week in which a depot can spare no unit if it can be helped.",
    also: "season busy",
  },
  "opportunistic-repair": {
    word: "opportunistic repair",
    meaning: "A repair done early because the unit stands in the workshop anyway.",
    also: "grouping",
  },
  contingency: { word: "contingency", meaning: "Money held for what an open engine may still show.", also: "reserve" },
  bridge: { word: "bridge", meaning: "The steps that lead from the last forecast to this one.", also: "why moved" },
  "wear-life": {
    word: "wear life",
    meaning: "From a baseline to the next repair; counted apart for top-end and bottom-end.",
    also: "life",
  },
  "track-record": {
    word: "track record",
    meaning: "How past forecasts turned out, each held against the tests and repairs that came after it.",
    also: "back-test backtest accuracy hindsight",
  },
  "forecast-range": {
    word: "range",
    meaning: "What a forecast says the truth lies in, so many times in a hundred: right when it holds just as often.",
    also: "interval coverage calibration",
  },
  "pinball-score": {
    word: "pinball score",
    meaning: "How far a told range lies from what came, wide ranges counting against it too. Lower is better.",
    also: "quantile loss",
  },
  "brier-score": {
    word: "Brier score",
    meaning:
      "The squared distance of a told chance from what came, 1 or 0, in the mean. Lower is better; 0 is foresight.",
    also: "probability score",
  },
  "standard-deviation": {
    word: "standard deviation",
    meaning:
      "How far values scatter: about two in three lie nearer to the middle than this, 19 in 20 nearer than twice.",
    also: "scatter sigma spread",
  },
  "degrees-of-freedom": {
    word: "degrees of freedom",
    meaning: "How many values a figure rests on, less what was fitted to them. The more, the surer.",
    also: "sample size",
  },
  "analysis-of-variance": {
    word: "analysis of variance",
    meaning: "Parts how far values scatter by where it comes from: the reading, the whole test, the instrument.",
    also: "ANOVA gauge study repeatability",
  },
} as const satisfies Readonly<Record<string, Entry>>;

export type TermKey = keyof typeof entries;

/** Each term of the trade by its key: the word as the app writes it, and its meaning in a line. */
export const glossary: Readonly<Record<TermKey, Entry>> = entries;

/** All terms, ascending by their words. */
export const glossaryWords: readonly (Entry & { readonly key: TermKey })[] = (Object.keys(entries) as TermKey[])
  .map((key) => ({ key, ...glossary[key] }))
  .sort((a, b) => (a.word.toLowerCase() < b.word.toLowerCase() ? -1 : 1));

import { type Measure, type Place, places } from "../schema/words.ts";

/** Words of the trade as workshops write them, in cells and headings, to the contract's. */

/** Letters and figures alone, words parted by one blank: what is compared. */
export const wordsOf = (text: string): string =>
  text
    .toLowerCase()
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/[^\p{L}\p{N}%]+/gu, " ")
    .trim();

const blank =
  /^(?:|[-–—_.]+|\?+|n\/?a|n\.a\.?|nil|none|null|nt|nm|n\/t|n\/m|#n\/a|(?:not|un)[\s-]?(?:tested|measured|done|known|recorded|checked|avail(?:able)?)|skipped|unknown)$/i;

/** Whether a cell says that nothing was measured or is known: blank, `-`, `n/a`, `not tested`. */
export const isBlankWord = (text: string): boolean => blank.test(text.trim());

/**
 * The measure that a text names. A compression without a word of oil is the dry one; null: none, or more than one, as in
 * "compression and leak-down".
 */
export function measureIn(text: string): Measure | null {
  const words = ` ${wordsOf(text)} `;
  const leak =
    / (?:leak ?downs?|leak(?:age|s)?|leak ?off|lkdn|ld|ldt|clt|differential|diff press(?:ure)?|druckverlust) /.test(
      words,
    );
  const wet = / (?:wet|with oil|oiled|oil added|after oil) /.test(words);
  const dry = / (?:dry|without oil|no oil|before oil) /.test(words);
  const compression = / (?:compressions?|comp|compr|cranking pressure|kompression(?:sdruck)?) /.test(words);
  if (leak) return wet || dry || compression ? null : "leak-down";
  if (wet) return dry ? null : "compression-wet";
  return dry || compression ? "compression-dry" : null;
}

const placeWords: Record<Place, readonly string[]> = {
  crankcase: [
    "crankcase",
    "crank case",
    "crank",
    "dipstick",
    "oil filler",
    "oil fill",
    "breather",
    "crankcase vent",
    "sump",
    "rings",
    "filler",
    "filler cap",
    "oil cap",
  ],
  inlet: [
    "inlet",
    "intake",
    "in",
    "inl",
    "inlet valve",
    "intake valve",
    "carb",
    "carburettor",
    "carburetor",
    "air cleaner",
    "air filter",
    "throttle body",
    "manifold",
    "inlet manifold",
  ],
  exhaust: ["exhaust", "ex", "exh", "exhaust valve", "tailpipe", "tail pipe", "muffler", "silencer"],
  coolant: ["coolant", "radiator", "rad", "water", "bubbles", "header tank", "expansion tank", "cooling"],
  neighbour: ["neighbour", "neighbor", "next cylinder", "next cyl", "adjacent", "adjacent cylinder", "next plug hole"],
  none: ["none", "nil", "nothing", "no leak", "quiet"],
};
const placeOf = new Map(places.flatMap((place) => placeWords[place].map((word) => [word, place] as const)));

/** Where air was heard, joined as the contract has it; null: a word is not known, so nothing is taken for another. */
export function placesIn(text: string): string | null {
  const parts = text
    .split(/[+,;/&]|\band\b/i)
    .map(wordsOf)
    .filter((part) => part !== "");
  const found = parts.map((part) => placeOf.get(part) ?? placeOf.get(part.replace(/ ?(?:valves?|port|side)$/, "")));
  return found.some((place) => place === undefined) ? null : [...new Set(found)].join("+");
}

const yes = new Set([
  "yes",
  "y",
  "true",
  "ok",
  "okay",
  "x",
  "✓",
  "✔",
  "☑",
  "done",
  "1",
  "open",
  "warm",
  "hot",
  "out",
  "all out",
  "confirmed",
  "zeroed",
]);
const no = new Set(["no", "n", "false", "not ok", "✗", "✘", "☐", "0", "shut", "closed", "cold", "in", "not done"]);

/** `yes` or `no` as a tick list or a workshop writes it; null: neither. */
export function yesNoOf(text: string): "yes" | "no" | null {
  const word = text.trim().toLowerCase();
  return yes.has(word) ? "yes" : no.has(word) ? "no" : null;
}

const totals =
  /^(?:(?:grand |sub ?)?totals?|sums?|averages?|avg|means?|min|max|minimum|maximum|medians?|counts?|spread|std ?dev|limits?|lowest|highest)(?: (?:of|all|the|fleet|cylinders?|units?|values?|readings?|pressures?|compressions?|dry|wet|leak(?:age|down)?|kpa|bar|psi|%|per|for|new|test|tests))*$/;

/**
 * Whether the first cell of a row heads a line of totals below or between the readings: the word and what it is of, but
 * no figure, for a unit may well be called `MAX 2`.
 */
export const isTotalWord = (text: string): boolean => totals.test(wordsOf(text));

import { numberWords } from "../wording.ts";

/** What intake says of rows that look odd beside others, and of what they may have meant. */

interface Told {
  readonly date: string;
  /** "line 12", "known already". */
  readonly where: string;
}
const of = ({ date, where }: Told) => `the test of ${date} (${where})`;

export const oddWords = {
  nearRepeat: (other: Told) =>
    `all readings are those of ${of(other)}, one day off; taken as a test of its own, but if it is the same one, it counts twice`,
  sameDayRepeat: (other: Told, instruments: readonly [string, string]) =>
    `all readings are those of ${of(other)}, which differs by its instrument alone (${instruments.join(" in one, ")} in the other); taken as a test of its own, but if it is the same one, it counts twice`,
  sameDayOther: (other: Told, instruments: readonly [string, string]) =>
    `${of(other)} is of the same day and meter and reads otherwise (instrument ${instruments.join(" in one, ")} in the other); taken as a second test, but if it is the same one, say so, and the change is shown`,
  decimalSlip: (cylinder: number, value: number, likely: number) =>
    `cylinder ${cylinder} reads ${value}, far from the other cylinders; ${likely} would fit; taken, but check the decimal sign and the unit`,
  meterFast: (meter: string, other: Told, ahead: string, days: number) =>
    `the meter ${meter} runs ${ahead} ahead of ${of(other)} in ${days === 1 ? "1 day" : `${numberWords(days)} days`}, more than a unit can work; taken, but check the figure`,
  tooLow: (share: string) =>
    `all readings lie below ${share} of what is expected, in whatever unit; taken, but check the unit and the decimal sign`,
  heldAsLost: (least: number) =>
    `every cylinder is told to lose ${least} % or more; taken, but look whether that is the share that was held`,
  meterEqual: (meter: string, other: Told) =>
    `the meter ${meter} is the same as at ${of(other)}; taken, but look whether it was read anew`,
  copied: (other: Told) =>
    `all readings are exactly those of ${of(other)}; taken, but look whether they were copied from it`,
  beforeFirstDay: (date: string, firstDay: string) =>
    `${date} lies before the unit's first day (${firstDay}); taken, but check the date`,
  dateFirst: (date: string, firstDay: string) =>
    `the date ${date} lies before the unit's first day (${firstDay}), so look at that first`,
  pressureUnit: (unit: string, likely: string, other: Told | null) =>
    `the readings fit ${other === null ? "the engine's new value" : of(other)} in ${likely}, not in ${unit}; taken, but check the unit`,
  reversed: (other: Told) =>
    `the readings fit ${of(other)} far better when the cylinders are counted from the other end; taken, but check the order`,
  meterJump: (meter: string, other: Told, likely: string) =>
    `the meter ${meter} runs far ahead of ${of(other)}; ${likely} would fit; taken, but check its unit`,
  withdrawn: (what: string, { judgedBy, reason }: { readonly judgedBy: string; readonly reason: string }) =>
    `${what} was withdrawn by ${judgedBy} (${reason}), so what is said otherwise of it here counts nowhere; if it was measured all the same, give it as another attempt, or undo first what withdrew it`,
  unitLikeKnown: (unit: string, known: string) =>
    `the unit "${unit}" is new, but differs from the known unit "${known}" by a blank, a capital, a nought or the letter O alone; taken as a unit of its own, but check the number`,
  unitsAlike: (unit: string, other: string) =>
    `the units "${unit}" and "${other}" differ by a blank, a capital, a nought or the letter O alone; taken as two units, but check the numbers`,
} as const;

export const proposalWords = {
  meterReset: (date: string) => `The meter was replaced by ${date}; wear goes on`,
  meterIs: (meter: number, unit: string) => `Read the meter as ${numberWords(meter)} ${unit}`,
  meterConverted: (meter: number, from: string, unit: string) =>
    `Read the meter as ${from}: ${numberWords(meter)} ${unit}`,
  unitIs: (unit: string) => `Read the unit as ${unit}`,
  pressuresIn: (unit: string) => `Read the pressures in ${unit}`,
  instrumentIs: (instrument: string) => `The instrument was ${instrument}: it is the same test`,
  cylindersReversed: "Count the cylinders from the other end",
  dateIs: (date: string) => `Read the date as ${date}`,
} as const;

import { listWords, sentenceWords as sentence } from "../wording.ts";

/** The questions that a suggestion leaves open, as sentences for people. */

const longest = 60;
const quote = (text: string) =>
  text.trim().length > longest ? `"${text.trim().slice(0, longest)}…"` : `"${text.trim()}"`;
const named = (header: string, index: number) =>
  header.trim() === "" ? `${index + 1} (without a heading)` : quote(header);
const columns = (headers: readonly string[]) =>
  `${headers.length === 1 ? "the column" : "the columns"} ${listWords(headers.slice(0, 12).map(quote))}`;

export const questionWords = {
  noHeader:
    "No row of the file looks like headings of test results. Choose the row of the headings and say what each column is.",
  unit: "No column tells the unit. Say which column does, or which unit all of the file is of.",
  testDate:
    "No column tells the date of the test. Say which column does, or on which day all tests of the file were made.",
  dateByContent: (header: string, index: number) =>
    `The column ${named(header, index)} holds dates, and its heading does not say of what. Say whether they are the dates of the tests.`,
  meter: "No column tells the meter reading. Say which column does, or give it for all of the file.",
  meterUnit: "Nothing says whether the meters count hours, kilometres or miles.",
  test: (headers: readonly string[]) =>
    `Nothing says which test ${columns(headers)} ${headers.length === 1 ? "is" : "are"} of.`,
  cylinder: "No column tells the cylinder, and no heading names one. Say which column does.",
  valueUnit: (headers: readonly string[], example: string) =>
    `Nothing says in which unit ${columns(headers)} ${headers.length === 1 ? "is" : "are"}, such as ${example}.`,
  unitOtherwise: (headers: readonly string[], said: string) =>
    `The title says that the readings are in ${said}, and ${columns(headers)} ${headers.length === 1 ? "says" : "say"} otherwise. Say which unit is right.`,
  pairUnit: (headers: readonly string[], example: string) =>
    `In ${columns(headers)} cells such as ${example} tell a pressure held and its supply. Nothing says in which unit they are.`,
  supply: (headers: readonly string[]) =>
    `In ${columns(headers)} the pressure is told that was held. Say which column has the supply pressure, or give it for all of the file.`,
  supplyUnit: (header: string) => `Nothing says in which unit the supply pressure ${quote(header)} is.`,
  dateOrder: (example: string) => `Nothing tells whether the day or the month comes first in dates such as ${example}.`,
  dateOrderBarely: (example: string, by: string) =>
    `Of many dates such as ${example} hardly any but ${by} tells whether the day or the month comes first, and that may be a slip. Say which does.`,
  keptOrder: (
    name: string,
    { held, by, told }: { readonly held: string; readonly by: string; readonly told: string },
  ) =>
    `By the kept layout ${quote(name)} ${held} comes first in dates, but in this file ${told} comes first, as in ${by}. Say which holds for it.`,
  keptOpen: (name: string, held: string, open: string) =>
    `By the kept layout ${quote(name)} ${held} comes first in dates. ${open}`,
  keptSign: (name: string, { held, by }: { readonly held: string; readonly by: string }) =>
    `By the kept layout ${quote(name)} the decimal sign is ${held === "." ? "the dot" : "the comma"}, but in this file ${by} has the other. Say which holds for it.`,
  keptForFile: (name: string, field: string, value: string) =>
    `By the kept layout ${quote(name)} the ${field} is ${quote(value)} for all of the file. It was said of an earlier file: say whether it holds for this one, or what does.`,
  keptLayouts: (names: readonly string[]) =>
    `The kept layouts ${listWords(names.map(quote))} are of these headings, and read them differently. Say which of them counts: borecast import with --layout and its name, or by saying below how the columns are read.`,
  datesContradict: (one: string, two: string) =>
    `The dates ${one} and ${two} cannot be in the same order. Say which order holds; dates that do not fit it are refused.`,
  datesTurned: (one: string, other: string) =>
    `Some dates are written like ${one} and others like ${other}. A spreadsheet may have turned day and month round in some of them: compare them with the source, then say which comes first.`,
  decimalSign: (example: string) => `Nothing tells whether ${example} has a decimal sign or parted thousands.`,
  numbersContradict: (one: string, two: string) =>
    `The numbers ${one} and ${two} have different decimal signs. Say which is right; numbers that do not fit it are refused.`,
  percentSense: (headers: readonly string[]) =>
    `${sentence(columns(headers))} may tell the per cent that was lost or that was held. Take it if it is what was lost; else write it as per cent lost and read the file again.`,
  pressureSense: (headers: readonly string[]) =>
    `${sentence(columns(headers))} may tell the pressure that was held or that was lost. Take it if it is what was held; else write what was held and read the file again.`,
  numbersBesideCylinders: (headers: readonly string[]) =>
    `The rows name the cylinder, and ${columns(headers)} ${headers.length === 1 ? "has a number" : "have numbers"} too. Say what the ${headers.length === 1 ? "number is" : "numbers are"} of.`,
  letters: (headers: readonly string[]) =>
    `${sentence(columns(headers))} look like cylinders by letters. Say whether they are cylinders 1 to ${headers.length} in this order.`,
  readings: "No column is known to hold readings. Say which do, and of which test and cylinder they are.",
  countedFromNought: (header: string) =>
    `There is no cylinder ${quote(header)}: the cylinders seem to be counted from 0. Say for each column which cylinder it is of.`,
  share: (headers: readonly string[], example: string) =>
    `The leakages in ${columns(headers)} are at most 1, such as ${example}: they look like shares of 1, not per cent. Write them as per cent and read the file again.`,
  foreignUnit: (header: string, unit: string) =>
    `The column ${quote(header)} is in ${unit}, which is not read here. Convert it, or leave it out.`,
  sameMeaning: (headers: readonly string[]) =>
    `${sentence(columns(headers))} seem to tell the same. Say which of them counts.`,
  engineModel: (header: string) =>
    `The column ${quote(header)} names engines that are not in the list of engine models, so it is left out.`,
  column: (header: string, index: number) =>
    `What the column ${named(header, index)} holds is not known. It is left out unless you say what it is.`,
} as const;

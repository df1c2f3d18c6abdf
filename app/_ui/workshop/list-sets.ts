import { classFields, type Field } from "./field-sets.ts";

/** The lists of prices and workshops: rows that people add, each with its cells. */

interface Cell<Name extends string> extends Omit<Field, "kind" | "help"> {
  readonly name: Name;
  readonly kind?: "text" | "date" | "depot" | "model";
  readonly help?: string;
}

interface ListSet<Name extends string> {
  readonly legend: string;
  readonly says: string;
  /** What a row is. */
  readonly row: string;
  readonly none: string;
  readonly add: string;
  readonly cells: readonly Cell<Name>[];
}

const spares = {
  legend: "Spare engines",
  says: "With an engine in stock another engine may be put in instead of a repair, where the model tells what that costs.",
  row: "Spare engines",
  none: "None in stock: no engine is exchanged.",
  add: "Add an engine model",
  cells: [
    { name: "model", label: "Engine model", kind: "model", takes: "An engine model." },
    { name: "count", label: "In stock", unit: "engines", takes: "A whole number from 0 to 10,000." },
    {
      name: "turnaroundWeeks",
      label: "Built again in",
      unit: "weeks",
      help: "Until one that came out can go in. Judgement, no source.",
      takes: "Whole weeks from 1 to 520.",
      empty: "12",
    },
  ],
} as const satisfies ListSet<string>;

const peaks = {
  legend: "Peak weeks of classes",
  says: "When units of a class are needed most, at whatever depot: a day out of service then costs as many times as much as its class tells.",
  row: "Peak",
  none: "None: peak weeks are those of the depots alone.",
  add: "Add peak weeks of a class",
  cells: [
    { name: "unitClass", label: "Class", kind: "text", takes: "A class of units." },
    { name: "firstWeek", label: "From week", unit: "every year", takes: "A week from 1 to 53." },
    { name: "lastWeek", label: "to week", unit: "that one too", takes: "A week from 1 to 53." },
    { name: "what", label: "What", kind: "text", takes: "Up to 200 characters.", empty: "not told" },
  ],
} as const satisfies ListSet<string>;

const groups = {
  legend: "Units that must not be out together",
  says: "Of one route or site: no more of a group are planned into one week than may be out.",
  row: "Group",
  none: "None: any units may be out together.",
  add: "Add a group",
  cells: [
    { name: "name", label: "Name", kind: "text", takes: "A name of its own, up to 200 characters." },
    {
      name: "units",
      label: "Units",
      kind: "text",
      help: "Two or more, with commas between.",
      takes: "Two units or more, with commas between.",
    },
    { name: "mostOut", label: "May be out at once", unit: "units", takes: "A whole number from 1 on." },
  ],
} as const satisfies ListSet<string>;

const otherWork = {
  legend: "Other work of units",
  says: "For which a unit is in the workshop anyway: a repair in that week costs so many days out of service less.",
  row: "Work",
  none: "None is told.",
  add: "Add work of a unit",
  cells: [
    { name: "unit", label: "Unit", kind: "text", takes: "A unit." },
    { name: "date", label: "In the week of", kind: "date", takes: "A day of the calendar." },
    { name: "days", label: "Takes", unit: "days", takes: "Days above 0, up to 365." },
    { name: "what", label: "What", kind: "text", takes: "Up to 200 characters.", empty: "not told" },
  ],
} as const satisfies ListSet<string>;

const taken = {
  legend: "Taken of a depot’s week",
  says: "By other jobs than engines: the plan has so much less there in that week.",
  row: "Taken",
  none: "Nothing is taken.",
  add: "Add what is taken",
  cells: [
    { name: "depot", label: "Depot", kind: "depot", takes: "A depot." },
    { name: "date", label: "In the week of", kind: "date", takes: "A day of the calendar." },
    { name: "bayDays", label: "Bays", unit: "bay days", takes: "Bay days from 0 to 10,000.", empty: "0" },
    { name: "hours", label: "Labour", unit: "h", takes: "Hours from 0 to 100,000.", empty: "0" },
    { name: "what", label: "What", kind: "text", takes: "Up to 200 characters.", empty: "not told" },
  ],
} as const satisfies ListSet<string>;

export const listSets = { peaks, spares, groups, otherWork, taken } as const;
export const listNames = [
  "peaks",
  "spares",
  "groups",
  "otherWork",
  "taken",
] as const satisfies readonly (keyof typeof listSets)[];
export type ListName = (typeof listNames)[number];
export type CellName<List extends ListName> = (typeof listSets)[List]["cells"][number]["name"];

/** The cells of a list as they are drawn and read, whichever list it is. */
export const cellsOf = (list: ListName): readonly Cell<string>[] => listSets[list].cells;

/** The cells of a class of units; none need be told. */
export const classCells: readonly (Field & { readonly name: string })[] = classFields.map((field) => ({
  ...field,
  empty: "as any class",
  takes: `${field.takes.replace(/\.$/, "")}, or nothing for that of any class.`,
}));

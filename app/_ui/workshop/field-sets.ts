/** The single figures of prices and workshops by subject; each is named by its place in the document. */

export const figureNames = [
  "currency",
  "priceDate",
  "labourRate",
  "labourGrowthPercent",
  "partsGrowthPercent",
  "contingencyPercent",
  "fiscalYearStartMonth",
  "budgetMonths",
  "spreads.hoursPercent",
  "spreads.partsPercent",
  "spreads.growthPercent",
  "spreads.ofModelPercent",
  "planWeeks",
  "missWeeks",
  "togetherMonths",
  "togetherLabourShare",
  "leadDays.topEnd",
  "leadDays.bottomEnd",
  "leadDays.exchange",
  "anyClass.dayOff",
  "anyClass.peakFactor",
  "anyClass.runningOnPerWeek",
  "anyClass.failurePercentPerWeek",
  "anyClass.failureExtra",
  "anyDepot.bays",
  "anyDepot.technicians",
  "anyDepot.builders",
  "anyDepot.productiveHoursPerDay",
  "anyDepot.daysPerWeek",
  "anyDepot.labourRate",
] as const;
export type FigureName = (typeof figureNames)[number];

export interface Field {
  readonly label: string;
  readonly unit?: string;
  /** What it does to the plan or the budget. */
  readonly help: string;
  /** What it takes, said where it is not taken. */
  readonly takes: string;
  /** Of a figure, which is what it is where nothing is said. `share`: kept from 0 to 1, shown in %. */
  readonly kind?: "text" | "date" | "month" | "share";
  /** What holds where it is left empty; else it may not be. */
  readonly empty?: string;
}

export interface FieldSet<Name extends string = string> {
  readonly legend: string;
  readonly says: string;
  readonly fields: readonly (Field & { readonly name: Name })[];
}

const growth = "From −50 to 200 % a year.";
const spread = "From 0 to 200 %.";
const workingDays = "Working days from 0 to 1,000.";
const amount = "An amount from 0 on.";

const money: FieldSet<FigureName> = {
  legend: "Money",
  says: "What all amounts are told in, and how they grow from there on. The budget, quotes and job cards have them grow until the week in which a repair is made; the plan weighs all weeks at the prices of its first Monday, for growing ones would hurry what can wait.",
  fields: [
    {
      name: "currency",
      label: "Currency",
      kind: "text",
      help: "Its code of ISO 4217, such as EUR; XXX names none. Amounts are not converted.",
      takes: "A code of ISO 4217: three capital letters, such as EUR, or XXX for none.",
    },
    {
      name: "priceDate",
      label: "Prices as of",
      kind: "date",
      help: "The day whose prices all amounts are; growth counts from it. Without one it is the day on which currency or labour rates here last changed, whatever else is saved; where nobody saved anything, the day of each plan.",
      takes: "A day of the calendar, or nothing for the day on which prices are told.",
      empty: "the day on which they are told",
    },
    {
      name: "labourRate",
      label: "Labour rate",
      unit: "an hour",
      help: "Of a technician; a depot may have its own.",
      takes: amount,
    },
    {
      name: "labourGrowthPercent",
      label: "Labour grows by",
      unit: "% a year",
      help: "Makes later repairs dearer in budget and quotes, not in what the plan weighs. 2 to 6 is common practice, no source.",
      takes: growth,
    },
    {
      name: "partsGrowthPercent",
      label: "Parts grow by",
      unit: "% a year",
      help: "Parts and machining. 2 to 6 is common practice, no source.",
      takes: growth,
    },
    {
      name: "contingencyPercent",
      label: "Contingency",
      unit: "% of the work",
      help: "Told beside a quote and a job card, of what the work is expected to cost. 10 to 20 for planned work, 25 to 40 until an engine is opened, is common practice, no source. The budget’s own is P80 less P50.",
      takes: spread,
    },
  ],
};

const budget: FieldSet<FigureName> = {
  legend: "Budget",
  says: "Over how long money is drawn, and how far it may lie from what is told. The spreads are judgement, no source.",
  fields: [
    {
      name: "fiscalYearStartMonth",
      label: "Fiscal year begins in",
      kind: "month",
      help: "The budget sums years from it on.",
      takes: "A month.",
    },
    {
      name: "budgetMonths",
      label: "Budget runs for",
      unit: "months",
      help: "Months that money is told for.",
      takes: "Whole months from 12 to 60.",
    },
    {
      name: "spreads.hoursPercent",
      label: "Hours may differ by",
      unit: "%",
      help: "Of a repair’s labour; widens P80 and P95.",
      takes: spread,
    },
    {
      name: "spreads.partsPercent",
      label: "Parts may differ by",
      unit: "%",
      help: "Of a repair’s parts and machining; widens P80 and P95.",
      takes: spread,
    },
    {
      name: "spreads.growthPercent",
      label: "Growth may differ by",
      unit: "points a year",
      help: "Of labour and parts, all repairs alike.",
      takes: "From 0 to 50 points a year.",
    },
    {
      name: "spreads.ofModelPercent",
      label: "Engines of a model share",
      unit: "% of doubt",
      help: "If one wears sooner than told, so do its sisters, by so much.",
      takes: "From 0 to 100 %.",
    },
  ],
};

const plan: FieldSet<FigureName> = {
  legend: "Plan",
  says: "How far ahead repairs are put into weeks, and what is done together.",
  fields: [
    {
      name: "planWeeks",
      label: "Plan runs for",
      unit: "weeks",
      help: "Weeks in which work may begin.",
      takes: "Whole weeks from 26 to 104.",
    },
    {
      name: "missWeeks",
      label: "Later plans miss by",
      unit: "weeks",
      help: "A repair that may wait is weighed against one planned later, which misses its best week by so much. Judgement, no source.",
      takes: "Whole weeks from 0 to 260.",
    },
    {
      name: "togetherMonths",
      label: "Both together within",
      unit: "months",
      help: "Top end and bottom end due within this may be made in one go. 12 to 18 is common practice, no source.",
      takes: "Whole months from 1 to 60.",
    },
    {
      name: "togetherLabourShare",
      label: "A top end then adds",
      unit: "% of its labour",
      kind: "share",
      help: "Where the model does not tell both at once. 10 to 30 is common practice, no source.",
      takes: "From 0 to 100 %.",
    },
    {
      name: "leadDays.topEnd",
      label: "Parts, top end",
      unit: "working days",
      help: "Until they can be had, where the model tells none: no earlier week is taken. 3 to 15 for valves is common practice, no source.",
      takes: workingDays,
    },
    {
      name: "leadDays.bottomEnd",
      label: "Parts, bottom end",
      unit: "working days",
      help: "The same. 5 to 30 for pistons, rings and liners is common practice, no source.",
      takes: workingDays,
    },
    {
      name: "leadDays.exchange",
      label: "Another engine",
      unit: "working days",
      help: "Until one can be put in. 10 to 60 is common practice, no source.",
      takes: workingDays,
    },
  ],
};

/** What standing still and running on cost, of any class or of one; `short`: what a figure is of, behind it. */
export const classFields = [
  {
    name: "dayOff",
    short: "a day out of service",
    label: "Day out of service",
    unit: "a day",
    help: "Hire of another, or work not done: what a repair costs beside the workshop.",
    takes: amount,
  },
  {
    name: "peakFactor",
    short: "times that in peak weeks",
    label: "In peak weeks",
    unit: "times as much",
    help: "Keeps repairs out of the peak weeks of depots.",
    takes: "A factor from 1 to 100.",
  },
  {
    name: "runningOnPerWeek",
    short: "a week past the limit",
    label: "Running past the limit",
    unit: "a week",
    help: "Fuel, oil and starting trouble; makes it dear to wait.",
    takes: amount,
  },
  {
    name: "failurePercentPerWeek",
    short: "% a week that it fails there",
    label: "Failure past the limit",
    unit: "% a week",
    help: "Chance in each week. Judgement, no source.",
    takes: "From 0 to 100 %.",
  },
  {
    name: "failureExtra",
    short: "a recovery",
    label: "Recovery after a failure",
    unit: "each",
    help: "Towing, hire. How much dearer the repair itself gets, the engine model tells.",
    takes: amount,
  },
] as const satisfies readonly (Field & { readonly name: string; readonly short: string })[];
export type ClassField = (typeof classFields)[number]["name"];

const anyClass: FieldSet<FigureName> = {
  legend: "Any class of unit",
  says: "What it costs that a unit stands still, runs on past its limit, or fails there. The defaults are judgement, no source: put your own.",
  fields: classFields.map((field) => ({ ...field, name: `anyClass.${field.name}` as const })),
};

const anyDepot: FieldSet<FigureName> = {
  legend: "Any depot’s workshop",
  says: "What a depot has of which nobody told anything on its own page; each depot’s own, where it tells any, stand there and hold instead.",
  fields: [
    {
      name: "anyDepot.bays",
      label: "Bays",
      help: "Places where an engine can be opened: so many repairs at once. With 0, repairs are planned only at depots with bays of their own.",
      takes: "A whole number from 0 to 500.",
    },
    {
      name: "anyDepot.technicians",
      label: "Technicians",
      help: "With their hours they make the week’s labour.",
      takes: "A whole number from 0 to 5,000.",
    },
    {
      name: "anyDepot.builders",
      label: "Bottom-end builders",
      help: "Technicians who can build bottom ends; one or two are common practice, no source.",
      takes: "A whole number from 0 to 5,000.",
    },
    {
      name: "anyDepot.productiveHoursPerDay",
      label: "Hours each a day",
      unit: "h",
      help: "Of engine work; 5.5 to 6.5 is common practice, no source.",
      takes: "Hours above 0, up to 24.",
    },
    {
      name: "anyDepot.daysPerWeek",
      label: "Days a week",
      help: "Days on which its workshop works.",
      takes: "A whole number from 1 to 7.",
    },
    {
      name: "anyDepot.labourRate",
      label: "Labour rate",
      unit: "an hour",
      help: "Where depots have another than the fleet.",
      takes: "An amount from 0 on, or nothing for the fleet’s.",
      empty: "the fleet’s",
    },
  ],
};

export const fieldSets = { money, budget, plan, anyClass, anyDepot } as const;

export const fieldNamed = Object.fromEntries(
  Object.values(fieldSets).flatMap(({ fields }) => fields.map((field) => [field.name, field])),
) as Readonly<Record<FigureName, Field & { readonly name: FigureName }>>;

/** The fields of an engine model's form by what they tell, named by their place in the model's JSON. */

/** What every way to put an engine right tells. */
export function workFields<Of extends string>(of: Of) {
  return [
    `repairs.${of}.labourHours`,
    `repairs.${of}.parts`,
    `repairs.${of}.machining`,
    `repairs.${of}.downtimeDays`,
    `repairs.${of}.bayDays`,
    `repairs.${of}.leadDays`,
  ] as const;
}

export const figureNames = [
  "cylinders",
  "compression.newKpa",
  "compression.minimumKpa",
  "compression.spreadPercent",
  "compression.spreadKpa",
  "compression.referenceRpm",
  "leakDown.watchPercent",
  "leakDown.planPercent",
  "leakDown.limitPercent",
  "leakDown.orificeMm",
  "leakDown.supplyKpa",
  "leakDown.valves.watchPercent",
  "leakDown.valves.planPercent",
  "leakDown.valves.limitPercent",
  "testInterval.meter",
  "testInterval.days",
  ...workFields("topEnd"),
  "repairs.topEnd.unplannedFactor",
  ...workFields("bottomEnd"),
  "repairs.bottomEnd.unplannedFactor",
  ...workFields("both"),
  ...workFields("exchange"),
] as const;
export const textNames = ["id", "name", "fuel"] as const;

export type FieldName = (typeof figureNames)[number] | (typeof textNames)[number];

/** Parts of a model that it may do without, as a whole. */
export const partNames = [
  "compression",
  "leakDown",
  "leakDown.valves",
  "repairs.topEnd",
  "repairs.bottomEnd",
  "repairs.both",
  "repairs.exchange",
] as const;
export type PartName = (typeof partNames)[number];

interface Field {
  readonly label: string;
  readonly unit?: string;
  readonly help?: string;
  /** What holds where it is left empty. */
  readonly empty?: string;
}

const unplanned: Field = { label: "Unplanned factor", help: "Times dearer if it breaks first.", empty: "1" };

function workWords<Of extends string>(of: Of) {
  const words: readonly Field[] = [
    { label: "Labour", unit: "h", help: "Of the whole repair." },
    { label: "Parts", help: "In your money." },
    { label: "Machining", help: "Work outside, in your money.", empty: "within parts" },
    { label: "Out of service", unit: "days", help: "Until it works again; longer where its days in the bay are." },
    {
      label: "In a bay",
      unit: "days",
      help: "Working days; never fewer than its hours take the workshop. Empty: the working days out of service.",
      empty: "by out of service",
    },
    { label: "Parts come in", unit: "days", help: "Working days to wait.", empty: "as the fleet’s" },
  ];
  return Object.fromEntries(workFields(of).map((name, i) => [name, words[i]])) as Record<
    ReturnType<typeof workFields<Of>>[number],
    Field
  >;
}

/** Label, unit and meaning of each field. */
export const modelFields: Readonly<Record<FieldName, Field>> = {
  id: { label: "Id", help: "As files name it; it stays." },
  name: { label: "Name", help: "As pages show it.", empty: "the id" },
  fuel: { label: "Fuel", help: "petrol, diesel or another.", empty: "not told" },
  cylinders: { label: "Cylinders", help: "1 to 16." },
  "compression.newKpa": { label: "When new", unit: "kPa", help: "Gauge, at sea level." },
  "compression.minimumKpa": { label: "Minimum", unit: "kPa", help: "The limit that a forecast runs to." },
  "compression.spreadPercent": {
    label: "Spread allowed",
    unit: "%",
    help: "For the first two rules.",
    empty: "not judged",
  },
  "compression.spreadKpa": { label: "Spread allowed", unit: "kPa", help: "For the third rule.", empty: "not judged" },
  "compression.referenceRpm": {
    label: "Cranking speed",
    unit: "rpm",
    help: "A test below 0.7 times it is doubtful.",
    empty: "not told",
  },
  "leakDown.watchPercent": { label: "Watch", unit: "%", help: "From here on it is watched." },
  "leakDown.planPercent": { label: "Plan", unit: "%", help: "From here on a repair is planned." },
  "leakDown.limitPercent": { label: "Limit", unit: "%", help: "The limit that a forecast runs to." },
  "leakDown.orificeMm": { label: "Restrictor bore", unit: "mm", help: "Of the usual tester.", empty: "1.016" },
  "leakDown.supplyKpa": { label: "Supply", unit: "kPa", help: "Regulated pressure of the usual tester.", empty: "550" },
  "leakDown.valves.watchPercent": { label: "Watch", unit: "%" },
  "leakDown.valves.planPercent": { label: "Plan", unit: "%" },
  "leakDown.valves.limitPercent": { label: "Limit", unit: "%" },
  "testInterval.meter": {
    label: "By the meter",
    help: "Hours, km or miles, as its units count.",
    empty: "the fleet’s",
  },
  "testInterval.days": { label: "By the calendar", unit: "days", help: "Days between tests.", empty: "the fleet’s" },
  ...workWords("topEnd"),
  "repairs.topEnd.unplannedFactor": unplanned,
  ...workWords("bottomEnd"),
  "repairs.bottomEnd.unplannedFactor": unplanned,
  ...workWords("both"),
  ...workWords("exchange"),
};

export const coolingWords = { "": "not known", liquid: "liquid", air: "air" } as const;
export const layoutWords = { "in-line": "in line", v: "V, two banks", opposed: "opposed" } as const;

export const spreadRuleWords = {
  "of-highest": "below the highest cylinder, in % of it",
  "of-mean": "below the mean of all, in % of it",
  absolute: "below the highest cylinder, in kPa",
} as const;

import { altitudeM, type Depot } from "./plan.ts";

/** What the demo's plan and budget are reckoned with. All of it is invented; money is in a neutral unit. */

interface DepotWeeks {
  readonly bays: number;
  readonly technicians: number;
  readonly productiveHoursPerDay: number;
  readonly peakWeeks: readonly (readonly number[])[];
  readonly closedWeeks: readonly (readonly number[])[];
}

const builders: Record<Depot, number> = { Lowmarsh: 2, Midfell: 1, Highcol: 1 };
/** A technician's hour where it is not the fleet's. */
const labourRate: Partial<Record<Depot, number>> = { Highcol: 62 };

/** Of each class of units: a day off the road, a week past the limit, chance of a failure in such a week (%), its extra cost. */
const classCosts = {
  van: [90, 25, 3, 200],
  "light truck": [120, 35, 3, 300],
  "heavy truck": [320, 90, 3, 900],
  generator: [150, 60, 2, 600],
  pump: [140, 40, 3, 400],
  mower: [40, 10, 4, 50],
  "patrol aircraft": [450, 150, 1, 2500],
} as const;

/** The file of `borecast plan --workshop`. */
export function workshopFile(weeksOf: Readonly<Record<Depot, DepotWeeks>>) {
  const yearly = (kind: "peak" | "closed") => (span: readonly number[]) => ({
    kind,
    repeat: "yearly",
    firstWeek: span[0],
    lastWeek: span[1],
    remarks: null,
  });
  return {
    schemaVersion: 1,
    currency: "XXX",
    priceDate: "2026-07-01",
    labourGrowthPercent: 3,
    partsGrowthPercent: 4,
    labourRate: 58,
    planWeeks: 52,
    fiscalYearStartMonth: 7,
    leadDays: { topEnd: 8, bottomEnd: 15, exchange: 30 },
    unitClasses: Object.fromEntries(
      Object.entries(classCosts).map(([name, [dayOff, runningOnPerWeek, failurePercentPerWeek, failureExtra]]) => [
        name,
        { dayOff, peakFactor: 2, runningOnPerWeek, failurePercentPerWeek, failureExtra },
      ]),
    ),
    depots: Object.fromEntries(
      (Object.keys(altitudeM) as Depot[]).map((depot) => {
        const { peakWeeks, closedWeeks, ...has } = weeksOf[depot];
        const periods = [...peakWeeks.map(yearly("peak")), ...closedWeeks.map(yearly("closed"))];
        return [depot, { ...has, builders: builders[depot], labourRate: labourRate[depot] ?? null, periods }];
      }),
    ),
  };
}

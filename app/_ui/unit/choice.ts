import { decidingMeasure, weakestPlace } from "@/lib/assessment/weakest.ts";
import type { MeasureChart, UnitReport } from "@/lib/schema/report.ts";
import type { JudgedMeasure } from "@/lib/schema/words.ts";
import { unitAddress } from "../unit-address.ts";

/** What the Unit page shows large: one measure, one cylinder, referred or raw values. It lives in the page's address. */
export interface Choice {
  readonly measure: JudgedMeasure;
  readonly cylinder: number;
  readonly values: "referred" | "raw";
  /** The table shows all tests, not the latest alone. */
  readonly allTests: boolean;
}

type Search = Readonly<Record<string, string | string[] | undefined>>;

/** Charts that have something to draw. */
export function drawableCharts(report: UnitReport): readonly MeasureChart[] {
  return report.charts.filter((chart) => chart.cylinders.some((c) => c.points.length > 0));
}

/**
 * The choice that the address asks for; what it leaves open, or asks for in vain, is filled with a last test in doubt or
 * else the weakest place: the one that the finding tells of. Null where no measure has a reading.
 */
export function chooseFrom(report: UnitReport, search: Search): Choice | null {
  const { assessment } = report;
  const charts = drawableCharts(report);
  const weakest = weakestPlace(assessment);
  const [doubted] = assessment.inDoubt;
  const asked = assessment.cylinders.find((c) => String(c.cylinder) === search["cylinder"]);
  const inDoubt = assessment.cylinders.find((c) => c.cylinder === doubted?.cylinder);
  const cylinder = asked ?? inDoubt ?? weakest?.lead ?? assessment.cylinders[0];
  const deciding = asked === undefined ? (doubted ?? weakest?.measure) : decidingMeasure(asked);
  const chart =
    charts.find((c) => c.measure === search["measure"]) ??
    charts.find((c) => c.measure === deciding?.measure) ??
    charts[0];
  if (chart === undefined || cylinder === undefined) return null;
  const values = search["values"] === "raw" ? "raw" : "referred";
  return { measure: chart.measure, cylinder: cylinder.cylinder, values, allTests: search["tests"] === "all" };
}

/** Address of the page with another choice. */
export function choiceHref(unit: string, { measure, cylinder, values, allTests }: Choice): string {
  const raw = values === "raw" ? "&values=raw" : "";
  const tests = allTests ? "&tests=all" : "";
  return `${unitAddress(unit)}?measure=${measure}&cylinder=${cylinder}${raw}${tests}`;
}

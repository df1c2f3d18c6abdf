import { table } from "../../cli/table.ts";
import { numberWords } from "../../lib/wording.ts";
import { gaugeKinds } from "./slip-fleet.ts";
import type { SlipRate } from "./slips.ts";

const share = (of: number) => `${(100 * of).toFixed(0)} %`;

/** The rates of all warnings as a table; `testsOfKind`: how many honest tests each kind of gauge had, about. */
export function slipsTable(rates: readonly SlipRate[], testsOfKind: number): string {
  const rows = rates.map((rate) => [
    rate.where,
    rate.code,
    rate.planted,
    rate.falseAlarms.toFixed(1),
    rate.mostFalseAlarms === 0 ? "" : `${rate.mostFalseAlarms.toFixed(1)} (${rate.worstKind})`,
    share(rate.found),
    share(rate.fewestFound),
    numberWords(rate.slips),
  ]);
  const header = [
    `slips, ${gaugeKinds.length} kinds of gauge, some ${numberWords(testsOfKind)} honest tests each`,
    "warning",
    "planted",
    "false in 1,000",
    "most",
    "found",
    "fewest",
    "slips",
  ];
  return table(header, rows, [3, 5, 6, 7]);
}

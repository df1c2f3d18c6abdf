import { table } from "../../cli/table.ts";
import { type Case, type Judged, judgeFleet, judgeWarnings, scoresOf, type Warnings } from "./forecast/judge.ts";
import { development, kinds, report } from "./forecast/simulate.ts";

/**
 * How good forecasts are on fleets whose truth is known: `npm run bench:forecast` on the seeds and physics to report on,
 * `npm run bench:forecast -- development` on those to develop on. A name of a kind limits the run to it.
 */

const [first, ...rest] = process.argv.slice(2);
const world = first === "development" ? development : report;
const wanted = (first === "development" ? rest : process.argv.slice(2)).join(" ");
const seeds = world === development ? [11, 12, 13] : [901, 902, 903];
const share = (value: number) => (Number.isNaN(value) ? "–" : `${(100 * value).toFixed(0)} %`);
const number = (value: number) => (Number.isFinite(value) ? value.toFixed(2) : "–");

const rows: string[][] = [];
const all: Case[] = [];
const calls: string[][] = [];
const warnings: string[][] = [];
for (const kind of kinds.filter((one) => one.name.includes(wanted))) {
  const judged: Judged[] = [];
  for (const seed of seeds) judged.push(await judgeFleet(kind, world, seed));
  const cases = judged.flatMap((one) => one.cases);
  all.push(...cases);
  rows.push(rowOf(kind.name, cases));
  const sum = (of: (one: Judged) => number) => judged.reduce((total, one) => total + of(one), 0);
  calls.push([
    kind.name,
    share(sum((one) => one.calls.top[0]) / sum((one) => one.calls.top[1])),
    share(sum((one) => one.calls.bottom[0]) / sum((one) => one.calls.bottom[1])),
    share(sum((one) => one.alarms[0]) / sum((one) => one.alarms[1])),
  ]);
  if (kind.valves === undefined && kind.gaskets === undefined && kind.rate > 0) continue;
  const told: Warnings[] = [];
  for (const seed of seeds) told.push(await judgeWarnings(kind, world, seed));
  const count = (of: (one: Warnings) => number) => told.reduce((total, one) => total + of(one), 0);
  warnings.push([
    kind.name,
    `${count((one) => one.early)} of ${count((one) => one.faults)}`,
    kind.rate > 0 ? "–" : number((100 * count((one) => one.falseOnes)) / count((one) => one.cylinderYears)),
    number((100 * count((one) => one.siblingOnes)) / count((one) => one.siblingYears)),
  ]);
}
rows.push(rowOf("all together", all));

function rowOf(name: string, cases: readonly Case[]): string[] {
  const s = scoresOf(cases);
  return [
    name,
    String(s.cases),
    s.ranges === 0 ? "–" : `${share(s.coverage)} of ${share(s.nominal)}`,
    share(s.width),
    number(s.skill),
    s.bestRival,
    `${share(s.error)} / ${share(s.leastSquaresError)}`,
    number(s.brierSkill),
  ];
}

console.log(`Fleets of the ${world.name} world, seeds ${seeds.join(", ")}.\n`);
console.log(
  table(
    ["kind", "cylinders", "range held, due", "width", "skill", "against", "error, least squares'", "Brier skill"],
    rows,
    [1, 2, 3, 4, 6, 7],
  ),
);
console.log(table(["kind", "top-end right", "bottom-end right", "to plan or past limit"], calls, [1, 2, 3]));
console.log(
  table(
    ["kind", "faults told before half way", "false ones in 100 cylinder-years", "of a faulty one's siblings"],
    warnings,
    [1, 2, 3],
  ),
);

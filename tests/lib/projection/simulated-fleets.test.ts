import { describe, expect, test } from "vitest";
import { type Judged, judgeFleet, scoresOf } from "../../bench/forecast/judge.ts";
import { development, kinds } from "../../bench/forecast/simulate.ts";

/**
 * Whole fleets of made-up engines whose truth is known, through intake, pools and assessment. The bench prints more, on
 * more seeds; these guard what a planner relies on, on seeds that the model was developed on.
 */

const seeds = [11, 12];

/** By the names of their kinds: two tests may ask after the same fleets. */
const judged = new Map<string, Promise<Judged>>();

function judgedOf(name: string): Promise<Judged> {
  const known = judged.get(name) ?? judge(name);
  judged.set(name, known);
  return known;
}

async function judge(name: string): Promise<Judged> {
  const kind = kinds.find((one) => one.name === name);
  if (kind === undefined) throw new Error(`no kind ${name}`);
  const all: Judged[] = [];
  for (const seed of seeds) all.push(await judgeFleet(kind, development, seed));
  return {
    cases: all.flatMap((one) => one.cases),
    alarms: all.reduce<[number, number]>((sum, { alarms }) => [sum[0] + alarms[0], sum[1] + alarms[1]], [0, 0]),
    calls: (all[0] as Judged).calls,
  };
}

describe("ranges hold what came about as often as they say, within 12 points", () => {
  test.each([
    "steady ring wear",
    "accelerating ring wear",
    "wandering wear",
    "valves that burn",
    "gaskets that go",
    "few tests",
    "repairs, some unrecorded",
    "poor set-ups, two testers",
    "with compression, valves unheard",
  ])("%s", async (name) => {
    const { coverage, nominal, ranges } = scoresOf((await judgedOf(name)).cases);
    expect(ranges).toBeGreaterThan(100);
    expect(Math.abs(coverage - nominal)).toBeLessThan(0.12);
  });
});

test("wear that accelerates is not foretold late: a quarter of a line's error", async () => {
  const { error, leastSquaresError } = scoresOf((await judgedOf("accelerating ring wear")).cases);
  expect(error).toBeLessThan(0.25 * leastSquaresError);
});

test("with three or four tests the likely distance is nearly twice as near as a line's", async () => {
  const { error, leastSquaresError } = scoresOf((await judgedOf("few tests")).cases);
  expect(error).toBeLessThan(0.6 * leastSquaresError);
});

test("of engines that do not wear hardly any cylinder is called past its limit or to plan", async () => {
  const { alarms } = await judgedOf("stable engines");
  expect(alarms[0] / alarms[1]).toBeLessThanOrEqual(0.01);
});

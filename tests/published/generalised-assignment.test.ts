import { readFileSync } from "node:fs";
import loadHighs from "highs";
import { describe, expect, it } from "vitest";
import { Choice, isWithin, type Programme } from "../../lib/plan/programme.ts";
import { solveProgramme } from "../../lib/plan/solve.ts";

/**
 * Generalised assignment: instances c515-1 to c515-3 of the OR-Library (Beasley; file gap1) with their published optima
 * (Osman 1995; Cattrysse, Salomon and Van Wassenhove 1994), which are those of the maximum; the minimum's were reckoned for
 * the reference set with another exact solver. Jobs are the plan's needs, agents its weeks.
 */
interface Instance {
  readonly name: string;
  readonly agents: number;
  readonly jobs: number;
  readonly value: readonly (readonly number[])[];
  readonly resource: readonly (readonly number[])[];
  readonly capacity: readonly number[];
  readonly optimum_published: number;
  readonly optimum_min_recomputed: number;
  readonly one_optimal_assignment_agent_of_job: readonly number[];
}
const { instances } = JSON.parse(readFileSync(new URL("./data/l_gap.json", import.meta.url), "utf8")) as {
  readonly instances: readonly Instance[];
};

const programmeOf = ({ jobs, agents, value, resource, capacity }: Instance, sign: 1 | -1): Programme => ({
  needs: jobs,
  capacity,
  options: Array.from({ length: jobs * agents }, (_, i) => {
    const job = i % jobs;
    const row = Math.floor(i / jobs);
    return {
      cost: sign * (value[row]?.[job] as number),
      covers: [job],
      uses: [{ row, amount: resource[row]?.[job] as number }],
    };
  }),
});

const highs = await loadHighs();
const solve = (programme: Programme, start: ReadonlySet<number>) =>
  solveProgramme(
    highs,
    programme,
    { gap: 0, seconds: 60, start, onProgress: () => true },
    () => performance.now() / 1000,
  );

describe.each(instances)("generalised assignment $name", (instance) => {
  const { jobs, one_optimal_assignment_agent_of_job: agentOf } = instance;
  const published = new Set(agentOf.map((agent, job) => (agent - 1) * jobs + job));

  it("keeps to its capacities in the published assignment, and would not with all jobs at one agent", () => {
    expect(isWithin(programmeOf(instance, -1), published)).toBe(true);
    expect(
      isWithin(
        programmeOf(instance, -1),
        Array.from({ length: jobs }, (_, job) => job),
      ),
    ).toBe(false);
  });

  it("finds the published maximum, from an assignment that is worse", () => {
    const programme = programmeOf(instance, -1);
    const worse = anyAssignment(programme);
    const { cost, bound, taken, isCut } = solve(programme, worse);
    expect(-cost).toBe(instance.optimum_published);
    expect(-bound).toBeCloseTo(instance.optimum_published, 6);
    expect(isCut).toBe(false);
    expect(isWithin(programme, taken)).toBe(true);
  });

  it("finds the minimum of another exact solver", () => {
    const programme = programmeOf(instance, 1);
    expect(solve(programme, anyAssignment(programme)).cost).toBe(instance.optimum_min_recomputed);
  });
});

/** The first assignment that a search in depth comes upon. */
function anyAssignment(programme: Programme): ReadonlySet<number> {
  const found = assign(programme, []);
  if (found === null) throw new Error("no assignment keeps to the capacities");
  return new Set(found);
}

function assign(programme: Programme, taken: readonly number[]): readonly number[] | null {
  if (taken.length === programme.needs) return taken;
  const choice = new Choice(programme);
  for (const option of taken) choice.take(option);
  for (const [option, { covers }] of programme.options.entries()) {
    if (covers[0] !== taken.length || !choice.fits(option)) continue;
    const found = assign(programme, [...taken, option]);
    if (found !== null) return found;
  }
  return null;
}

import type { FaultRuling, TestObservation, WearObservations } from "@/lib/projection/observations.ts";

/** An engine's observations from rows of readings (%), 500 h apart from 500 h on unless told; all baselines their first. */
export function observed(
  rows: readonly (readonly number[])[],
  given: Partial<Pick<WearObservations, "segments" | "neighbours" | "originKnown">> & {
    readonly x?: readonly number[];
    readonly segment?: readonly (readonly number[])[];
    readonly heard?: readonly (readonly number[])[];
    readonly ruled?: readonly (readonly FaultRuling[])[];
    readonly spoilt?: readonly (readonly number[])[];
    readonly rounding?: readonly (readonly number[])[];
  } = {},
): WearObservations {
  const cylinders = rows[0]?.length ?? 4;
  const all = Array.from({ length: cylinders }, (_, i) => i);
  return {
    measure: "leak-down",
    cylinders,
    origin: 0,
    originKnown: given.originKnown ?? true,
    neighbours: given.neighbours ?? [],
    sharedLevelVariance: 0,
    segments:
      given.segments ??
      all.map((i) => ({
        cylinder: i + 1,
        current: true,
        begunBy: null,
        usableTests: rows.length,
        ownTests: rows.length,
      })),
    tests: rows.map(
      (badness, t): TestObservation => ({
        x: given.x?.[t] ?? 500 * (t + 1),
        date: `2024-01-${String(t + 1).padStart(2, "0")}`,
        weight: 1,
        segment: given.segment?.[t] ?? all,
        badness,
        referralVariance: badness.map(() => 0),
        roundingVariance: given.rounding?.[t] ?? badness.map(() => 0),
        weights: badness.map(() => 1),
        heard: given.heard?.[t] ?? badness.map(() => 0),
        ruled: given.ruled?.[t] ?? badness.map(() => null),
        spoilt: given.spoilt?.[t] ?? badness.map(() => 0.05),
      }),
    ),
  };
}

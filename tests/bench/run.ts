import { coverageOf, fleetKinds } from "./coverage.ts";

/** Prints how well the projection's ranges hold on simulated linear wear, a line a kind of fleet, over three seeds. */

const seeds = [1, 2, 3];
const percent = (share: number): string => `${(100 * share).toFixed(1)} %`.padStart(8);

console.log(`Coverage of P10 to P90 on simulated linear wear, seeds ${seeds.join(", ")}, all cylinders pooled`);
console.log("fleet            cylinders     held  nominal   error of likely   of least squares");
for (const kind of fleetKinds) {
  const results = seeds.map((seed) => coverageOf(kind, seed));
  const cylinders = results.reduce((sum, r) => sum + r.cylinders, 0);
  const pooled = (of: (r: (typeof results)[number]) => number) =>
    results.reduce((sum, r) => sum + r.cylinders * of(r), 0) / cylinders;
  console.log(
    kind.name.padEnd(17) + String(cylinders).padStart(9),
    percent(pooled((r) => r.coverage)),
    percent(pooled((r) => r.nominal)),
    percent(pooled((r) => r.medianRelativeError)).padStart(17),
    percent(pooled((r) => r.leastSquaresError)).padStart(18),
  );
}

import { createReadStream } from "node:fs";
import Papa from "papaparse";
import { linearRegression } from "simple-statistics";

/** Readings over the meter, a series for each cylinder and measure of each unit. */
export type AllSeries = readonly (readonly [meter: number, value: number][])[];

export function readSeries(file: string): Promise<AllSeries> {
  const series = new Map<string, [number, number][]>();
  return new Promise((resolve, reject) => {
    Papa.parse<Record<"unit" | "test" | "cylinder" | "meter" | "value", string>>(createReadStream(file), {
      header: true,
      skipEmptyLines: true,
      chunk: ({ data }) => {
        for (const row of data) {
          const key = `${row.unit} ${row.test} ${row.cylinder}`;
          const points = series.get(key);
          const point: [number, number] = [Number(row.meter), Number(row.value)];
          if (points === undefined) series.set(key, [point]);
          else points.push(point);
        }
      },
      complete: () => resolve([...series.values()]),
      error: reject,
    });
  });
}

/** Seconds for a straight line through every series, and nothing else. */
export function regressAlone(all: AllSeries): number {
  const start = performance.now();
  let finite = 0;
  for (const points of all) finite += Number(Number.isFinite(linearRegression(points as [number, number][]).m));
  const seconds = (performance.now() - start) / 1000;
  if (finite !== all.length) throw new Error(`${all.length - finite} series have no line`);
  return seconds;
}

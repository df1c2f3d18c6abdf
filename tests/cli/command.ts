import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { onTestFinished } from "vitest";
import { ensureCommand } from "../../cli/setup/build.mjs";
import { commandFile } from "../../cli/setup/place.mjs";

/** Builds the command where its sources are newer; call before all tests of a file. */
export const buildCommand = (): Promise<void> => ensureCommand();

/** A folder of its own, with files in it; it goes when the test has ended. */
export function folderWith(files: Readonly<Record<string, string>> = {}): string {
  const folder = mkdtempSync(path.join(tmpdir(), "borecast-cli-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [name, content] of Object.entries(files)) writeFileSync(path.join(folder, name), content);
  return folder;
}

export interface Ended {
  readonly status: number | null;
  readonly output: string;
  readonly errors: string;
}

/** Runs the built command in a folder; its database lies there too. `meanwhile` gets the program once it is begun. */
export function borecast(
  folder: string,
  args: readonly string[],
  meanwhile?: (child: ChildProcessWithoutNullStreams) => void,
): Promise<Ended> {
  return new Promise((resolve) => {
    const env = { ...process.env, BORECAST_DATA: path.join(folder, "data") };
    const child = spawn(process.execPath, [commandFile, ...args], { cwd: folder, env });
    const output: Buffer[] = [];
    const errors: Buffer[] = [];
    child.stdout.on("data", (chunk: Buffer) => output.push(chunk));
    child.stderr.on("data", (chunk: Buffer) => errors.push(chunk));
    meanwhile?.(child);
    child.on("close", (status) =>
      resolve({ status, output: Buffer.concat(output).toString(), errors: Buffer.concat(errors).toString() }),
    );
  });
}

export const models = JSON.stringify({
  schemaVersion: 1,
  engineModels: [
    {
      id: "petrol-4-a",
      cylinders: 4,
      neighbours: [
        [1, 2],
        [2, 3],
        [3, 4],
      ],
      compression: { newKpa: 1250, minimumKpa: 900 },
      leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 },
    },
  ],
});

const header = "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit";

/** Compression of a unit, in kPa: a test each half year, falling by `fall` a test. */
export function compression(unit: string, { tests = 6, start = 1240, fall = 25 } = {}) {
  return Array.from({ length: tests }, (_, t) =>
    [1, 2, 3, 4].map((cylinder) => ({
      unit,
      date: `${2022 + Math.floor(t / 2)}-${t % 2 === 0 ? "03" : "09"}-15`,
      meter: 2000 + 410 * t,
      cylinder,
      kpa: start - fall * t - (cylinder === 3 ? 12 * t : 0) + ((t * 5 + cylinder * 3) % 7) * 4,
    })),
  ).flat();
}

export const kpaLine = ({ unit, date, meter, cylinder, kpa }: ReturnType<typeof compression>[number]): string =>
  `${unit},petrol-4-a,${date},${meter},h,compression-dry,${cylinder},${kpa},kPa`;

export const csv = (lines: readonly string[]): string => `${[header, ...lines].join("\n")}\n`;

import { assessUnit } from "../../../lib/assess.ts";
import { fitPools } from "../../../lib/assessment/pools.ts";
import { factAssembler } from "../../../lib/intake/assemble.ts";
import { readFleetFile } from "../../../lib/intake/read-file.ts";
import type { UnitAssessment } from "../../../lib/schema/assessment.ts";
import { engineModelFileSchema } from "../../../lib/schema/engine-model.ts";
import { settingsSchema } from "../../../lib/schema/settings.ts";
import { indexFleet } from "../../../lib/sealing/seal.ts";
import { engineModels, type Fleet, horizonYears } from "./simulate.ts";

async function* bytesOf(text: string): AsyncGenerator<Uint8Array> {
  yield new TextEncoder().encode(text);
}

const models = new Map(
  engineModelFileSchema.parse(engineModels).engineModels.map((model) => [model.id, model] as const),
);

/** What the app says of a fleet's files on a day: read, sealed, pooled and assessed as `borecast assess` does. */
export async function assessFleet({ files }: Pick<Fleet, "files">, asOf: string): Promise<UnitAssessment[]> {
  const known = { models, units: new Map(), today: null };
  const assembler = factAssembler(known);
  for (const [file, text] of Object.entries(files)) {
    for await (const chunk of readFleetFile({ source: bytesOf(text), file, known })) {
      const refused = chunk.issues.find((issue) => issue.severity === "refused");
      if (refused) throw new Error(`${file} was refused: ${JSON.stringify(refused)}`);
      assembler.add(chunk);
    }
  }
  const index = indexFleet(assembler.finish().facts, { asOf });
  const pools = fitPools(index, asOf);
  const settings = settingsSchema.parse({ horizonYears });
  return index.units.map((unit) => assessUnit(index, unit, { asOf, settings, pools }).assessment);
}

/** The files as they were on a day: no row of a later one. */
export function filesUntil({ files }: Fleet, day: string): Fleet["files"] {
  const kept = (text: string, column: number) =>
    `${text
      .trimEnd()
      .split("\n")
      .filter((line, i) => i === 0 || (line.split(",")[column] as string) <= day)
      .join("\n")}\n`;
  return { ...files, "tests.csv": kept(files["tests.csv"], 2), "repairs.csv": kept(files["repairs.csv"], 1) };
}

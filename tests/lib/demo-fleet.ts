import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { type AssessedUnit, assessUnit } from "@/lib/assess.ts";
import { type FleetPools, fitPools } from "@/lib/assessment/pools.ts";
import { factAssembler } from "@/lib/intake/assemble.ts";
import { readFleetFile } from "@/lib/intake/read-file.ts";
import { engineModelFileSchema } from "@/lib/schema/engine-model.ts";
import type { FleetFacts } from "@/lib/schema/facts.ts";
import type { KnownFleet, RowIssue } from "@/lib/schema/intake.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";

/** The committed demo files through the real intake and all stages after it. */

const folder = path.resolve(import.meta.dirname, "../../demo-data");
const bytesOf = (name: string) => readFileSync(path.join(folder, name));

export const asOf = "2026-08-31";
const settings = settingsSchema.parse({});

async function* whole(bytes: Uint8Array) {
  yield bytes;
}

export async function readDemo(): Promise<{ readonly facts: FleetFacts; readonly issues: readonly RowIssue[] }> {
  const { engineModels } = engineModelFileSchema.parse(JSON.parse(bytesOf("engine-models.json").toString("utf8")));
  const models = new Map(engineModels.map((model) => [model.id, model]));
  const known: KnownFleet = { models, units: new Map(), today: asOf };
  const assembler = factAssembler(known);
  const issues: RowIssue[] = [];
  for (const file of readdirSync(folder).filter((name) => name.endsWith(".csv"))) {
    for await (const chunk of readFleetFile({ source: whole(bytesOf(file)), file, known })) {
      issues.push(...chunk.issues);
      assembler.add(chunk);
    }
  }
  const { facts, issues: later } = assembler.finish();
  return { facts, issues: [...issues, ...later] };
}

export interface AssessedFleet {
  readonly units: ReadonlyMap<string, AssessedUnit>;
  readonly pools: FleetPools;
}

/** Assesses some or all units of the facts; with `pools` given, under those. */
export function assessFleet(
  facts: FleetFacts,
  given: { readonly pools?: FleetPools; readonly only?: readonly string[] } = {},
): AssessedFleet {
  const index = indexFleet(facts, { asOf });
  const pools = given.pools ?? fitPools(index, asOf);
  const units = index.units.filter((unit) => given.only?.includes(unit.unit) ?? true);
  return {
    pools,
    units: new Map(units.map((unit) => [unit.unit, assessUnit(index, unit, { asOf, settings, pools })])),
  };
}

import { describe, expect, it } from "vitest";
import { factAssembler } from "@/lib/intake/assemble.ts";
import { contractCsv, writtenKinds } from "@/lib/outtake/contract-csv.ts";
import type { FleetFacts } from "@/lib/schema/facts.ts";
import { readDemo } from "../demo-fleet.ts";
import { readChunks, readText } from "../intake/read-text.ts";
import {
  checkFact,
  depotFact,
  judgementFact,
  meterFact,
  model,
  reading,
  repairFact,
  testFact,
  unitFact,
} from "../sealing/facts.ts";

/** Facts without the place that each was read from. */
const bare = (facts: unknown): unknown =>
  JSON.parse(
    JSON.stringify(facts, (key, value) => (key === "line" || key === "file" || key === "column" ? undefined : value)),
  );

async function readBack(told: Partial<FleetFacts>, models: FleetFacts["models"]) {
  const known = { models: new Map(models.map((one) => [one.id, one])), units: new Map(), today: null };
  const assembler = factAssembler(known);
  for (const kind of writtenKinds) {
    for (const chunk of await readChunks(contractCsv(kind, told), { kind, file: `${kind}.csv`, known })) {
      expect(chunk.issues.filter(({ severity }) => severity === "refused")).toEqual([]);
      assembler.add(chunk);
    }
  }
  const { models: _models, ...facts } = assembler.finish().facts;
  return facts;
}

describe("what is written is read back as it was", () => {
  it("of the whole demo fleet", async () => {
    const { facts } = await readDemo();
    const { models, ...told } = facts;
    const byText = (list: readonly unknown[]) => list.map((one) => JSON.stringify(bare(one))).sort();
    const back = await readBack(told, models);
    for (const kind of Object.keys(back) as (keyof typeof back)[]) {
      expect(byText(back[kind])).toEqual(byText(told[kind]));
      // Nobody has judged a test of the demo fleet.
      if (kind !== "judgements") expect(back[kind].length).toBeGreaterThan(0);
    }
  });

  it("with every column filled, quotes, line ends and commas in what people typed, and all that is not known left blank", async () => {
    const full = {
      depots: [depotFact('Yard "North", upper', -12.5)],
      units: [
        unitFact({
          unit: "7, the old one",
          depot: "Ü",
          class: "pump",
          inServiceDate: "2020-02-29",
          inServiceMeter: 12.25,
          engineSerial: "00012",
          disposalDate: "2030-01-01",
          status: "stopped",
          statusReason: "gearbox out, part ordered",
        }),
        unitFact({ engineModel: null, meterUnit: null, status: null }),
      ],
      tests: [
        testFact({
          time: "08:30",
          attempt: 2,
          instrument: "gauge 1, psi",
          orificeMm: 1.016,
          warm: true,
          throttleOpen: false,
          allPlugsOut: true,
          tdcConfirmed: true,
          gaugeZeroed: false,
          crankingRpm: 210,
          altitudeM: 0,
          barometerKpa: 99.5,
          testedBy: "T. Dunmore",
          readings: [
            reading({
              cylinder: 1,
              value: 70.5,
              valueUnit: "psi",
              supply: 80,
              heardAt: ["crankcase", "exhaust"],
              order: 2,
            }),
            reading({ cylinder: 2, value: 12, valueUnit: "%", heardAt: ["none"], remarks: 'a; b\n"c"' }),
          ],
        }),
        testFact({ test: "compression-dry", readings: [reading({ value: 1234, valueUnit: "kPa", firstStroke: 800 })] }),
      ],
      repairs: [
        repairFact({
          scope: "top-end",
          cylinders: [1, 3],
          found: ["inlet-valve", "exhaust-valve"],
          findings: [
            { cylinder: 1, causes: [] },
            { cylinder: 3, causes: ["inlet-valve", "exhaust-valve"] },
          ],
          cost: 812.5,
          labourHours: 9,
          downtimeDays: 2.5,
        }),
        repairFact({ scope: "engine-swap", engineSerial: "S-2", date: "2025-06-01", remarks: "=1+1" }),
      ],
      meterReadings: [meterFact({ meterReset: true }), meterFact({ date: "2025-03-01" })],
      checks: [
        checkFact({ cylinder: 2, value: 0.25, valueUnit: "mm", remarks: "cause: exhaust-valve" }),
        checkFact({ meter: null }),
      ],
      judgements: [
        judgementFact({ attempt: 2, instrument: "gauge 1, psi", cylinder: 3, reason: 'hose "B"\nleaked' }),
        judgementFact({ verdict: "accepted" }),
        judgementFact({ cylinder: 1, verdict: "none" }),
      ],
    };
    const known = { models: new Map([["petrol-4-a", model()]]), units: new Map(), today: null };
    const read = await Promise.all(
      writtenKinds.map((kind) => readText(contractCsv(kind, full), { kind, file: `${kind}.csv`, known })),
    );
    expect(read.flatMap(({ issues }) => issues.filter(({ severity }) => severity === "refused"))).toEqual([]);
    for (const kind of Object.keys(full) as (keyof typeof full)[]) {
      expect(bare(read.flatMap((one) => one[kind] as readonly unknown[]))).toEqual(bare(full[kind]));
    }
  });
});

import { expect, it } from "vitest";
import { connectedFacts } from "../../../lib/sealing/connected-facts.ts";
import { fleet, repairFact, testFact, unitFact } from "./facts.ts";

it("keeps of the facts those of a unit and of all that shared an engine with it, over others too", () => {
  const facts = fleet({
    units: ["A", "B", "C", "D"].map((unit) => unitFact({ unit })),
    tests: [
      testFact({ unit: "A", engineSerial: "E1" }),
      testFact({ unit: "B", engineSerial: "E1" }),
      testFact({ unit: "D", engineSerial: null }),
      testFact({ unit: "A", engineSerial: null }),
    ],
    repairs: [repairFact({ unit: "B", engineSerial: "E2" }), repairFact({ unit: "C", engineSerial: "E2" })],
  });
  const unitsOf = (unit: string) => connectedFacts(facts, unit).units.map((one) => one.unit);
  expect(unitsOf("A")).toEqual(["A", "B", "C"]);
  expect(unitsOf("C")).toEqual(["A", "B", "C"]);
  expect(unitsOf("D")).toEqual(["D"]);
  expect(connectedFacts(facts, "D").tests).toHaveLength(1);
  expect(connectedFacts(facts, "D").repairs).toEqual([]);
});

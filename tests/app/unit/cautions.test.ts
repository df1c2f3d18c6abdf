import { describe, expect, it } from "vitest";
import { cautionsFor } from "@/app/_ui/unit/cautions.ts";
import { diesel, v8 } from "./fixture.ts";

const all = (report: Parameters<typeof cautionsFor>[0]) => cautionsFor(report).join(" ");

describe("cautionsFor", () => {
  it("warns of test air where the model is leak-down tested", () => {
    expect(all(diesel)).toContain("Test air can turn the crank");
    expect(all(v8)).not.toContain("Test air");
  });

  it("warns of injection pressure on diesels only", () => {
    expect(all(diesel)).toContain("injection pressure");
    expect(all(v8)).not.toContain("injection pressure");
  });

  it("warns of hot coolant once a coolant leak is likely enough to be looked for", () => {
    expect(all(diesel)).not.toContain("cooling system");
    const [first, ...rest] = diesel.assessment.cylinders;
    if (first === undefined) throw new Error("the fixture has cylinders");
    const gasket = { cause: "head-gasket", probability: 0.4 } as const;
    const cylinders = [{ ...first, causes: [{ ...gasket, because: [], against: [] }] }, ...rest];
    expect(all({ ...diesel, assessment: { ...diesel.assessment, cylinders } })).toContain(
      "Never open the cooling system",
    );
  });

  it("puts the licensed engineer first on aircraft and names the propeller", () => {
    const aircraft = cautionsFor({ ...diesel, model: { ...diesel.model, aircraft: true, fuel: "petrol" } });
    expect(aircraft[0]).toContain("licensed engineer");
    expect(aircraft.join(" ")).toContain("propeller");
  });
});

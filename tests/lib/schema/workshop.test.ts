import { describe, expect, it } from "vitest";
import { classCostsOf, depotWorkshopOf, workshopSchema } from "@/lib/schema/workshop.ts";

const problemsOf = (document: object) =>
  (workshopSchema.safeParse(document).error?.issues ?? []).map(
    ({ path, message }) => `${path.map(String).join(".")}: ${message}`,
  );

describe("a workshop's document", () => {
  it("has a default for all that it leaves out", () => {
    expect(workshopSchema.parse({})).toMatchObject({ currency: "XXX", anyDepot: { bays: 1 }, groups: [], depots: {} });
  });
  it.each([
    [{ groups: [0, 1].map(() => ({ name: "Route 4", units: ["A", "B"], mostOut: 1 })) }, "groups.1.name", "Group 1 is"],
    [{ groups: [{ name: "Route 4", units: ["A", "A"], mostOut: 1 }] }, "groups.0.units", "A is named twice"],
    [{ anyDepot: { technicians: 2, builders: 3 } }, "anyDepot.builders", "write at most 2,"],
    [{ depots: { Highcol: { builders: 3 } } }, "depots.Highcol.builders", "write at most 2,"],
    [{ depots: { Highcol: { technicians: 0, builders: 1 } } }, "depots.Highcol.builders", "write at most 0,"],
  ])("is refused where it contradicts itself: %j", (document, path, words) => {
    expect(problemsOf(document)).toEqual([expect.stringMatching(`^${path}: .*${words}`)]);
  });
  it("takes as many builders as there are technicians, and groups of other names", () => {
    const group = { units: ["A", "B"], mostOut: 1 };
    expect(
      problemsOf({
        anyDepot: { technicians: 2, builders: 2 },
        depots: { Highcol: { technicians: 3, builders: 3 }, Midfell: { technicians: 0 } },
        groups: [
          { ...group, name: "Route 4" },
          { ...group, name: "Route 5" },
        ],
      }),
    ).toEqual([]);
  });
  it("gives a depot and a class what they do not tell from any other's", () => {
    const workshop = workshopSchema.parse({
      anyDepot: { bays: 4, technicians: 3, builders: 3, labourRate: 50 },
      depots: { Midfell: { technicians: 1 }, Highcol: { labourRate: null } },
      anyClass: { dayOff: 10 },
      unitClasses: { van: { peakFactor: 5 } },
    });
    // Nobody can build bottom ends who is no technician.
    expect(depotWorkshopOf(workshop, "Midfell")).toMatchObject({
      bays: 4,
      technicians: 1,
      builders: 1,
      labourRate: 50,
    });
    expect(depotWorkshopOf(workshop, "Highcol")).toMatchObject({ builders: 3, labourRate: null });
    expect(depotWorkshopOf(workshop, "toString")).toEqual(workshop.anyDepot);
    expect(classCostsOf(workshop, "van")).toEqual({ ...workshop.anyClass, peakFactor: 5 });
    expect(classCostsOf(workshop, null)).toEqual(workshop.anyClass);
  });
});

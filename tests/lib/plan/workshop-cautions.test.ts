import { expect, it } from "vitest";
import { workshopCautions } from "../../../lib/plan/workshop-cautions.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";

const fleet = {
  asOf: "2026-08-31",
  units: new Set(["A", "B", "C"]),
  depots: [
    { depot: "Highcol", bays: 1 },
    { depot: "Lowmarsh", bays: null },
  ],
};
const cautions = (document: object, known: Parameters<typeof workshopCautions>[1] = fleet) =>
  workshopCautions(workshopSchema.parse(document), known);

it("warns of nothing in the defaults, nor of a group of some units", () => {
  expect(cautions({})).toEqual([]);
  expect(cautions({ groups: [{ name: "Route 4", units: ["A", "B"], mostOut: 1 }] })).toEqual([]);
});

it("warns of a group that names every unit, and of one that limits nothing", () => {
  expect(cautions({ groups: [{ name: "Route 4", units: ["A", "B", "C"], mostOut: 1 }] })).toEqual([
    "The group Route 4 names every unit of the fleet: no more than 1 of all units is planned out in a week, at all depots together.",
  ]);
  expect(cautions({ groups: [{ name: "Route 4", units: ["A", "B"], mostOut: 2 }] })).toEqual([
    "The group Route 4 limits nothing: all of its 2 units may be out at once.",
  ]);
});

it("says for which depots no bays hold, and which have their own", () => {
  const none = { anyDepot: { bays: 0 } };
  expect(cautions(none)).toEqual([
    "Any depot’s workshop has no bays: no repair is planned at Lowmarsh until bays are told there, on the depot’s page. Highcol has its own.",
  ]);
  expect(cautions(none, { ...fleet, depots: [{ depot: "Highcol", bays: 1 }] })[0]).toContain("holds for none now");
  expect(cautions(none, { ...fleet, depots: [] })[0]).toContain("no repair is planned at any depot");
});

it("warns of prices that are hardly meant, and of none that are common", () => {
  expect(cautions({ currency: "EUR", labourRate: 95, labourGrowthPercent: 6, priceDate: "2026-08-31" })).toEqual([]);
  expect(cautions({ currency: "JPY", labourRate: 9_000 })).toEqual([]);
  const odd = cautions({
    currency: "ABC",
    labourRate: 1e9,
    labourGrowthPercent: 200,
    partsGrowthPercent: -10,
    priceDate: "2030-01-01",
    contingencyPercent: 150,
  }).join(" ");
  expect(odd).toContain("ABC is the code of no currency in use");
  expect(odd).toContain("1 Jan 2030, which is to come");
  expect(odd).toContain("An hour of labour costs 1000000000");
  expect(odd).toContain("Labour grows by 200 % a year");
  expect(odd).toContain("Parts fall by 10 % a year");
  expect(odd).toContain("Contingency is 150 %");
});

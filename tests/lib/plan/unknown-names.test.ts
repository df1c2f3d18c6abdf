import { expect, it } from "vitest";
import { unknownNames } from "@/lib/plan/unknown-names.ts";
import { workshopSchema } from "@/lib/schema/workshop.ts";

const known = {
  units: new Set(["V-1", "V-2"]),
  depots: new Set(["Lowmarsh"]),
  engineModels: new Set(["petrol-4-a"]),
};
const paths = (document: object) =>
  unknownNames(workshopSchema.parse(document), known).map(({ path, message }) => [path.join("."), message]);

it("tells where a document names what nobody knows, and what to do", () => {
  expect(
    paths({
      depots: { Nowhere: {}, Lowmarsh: {} },
      spares: { "petrol-9": { count: 1 }, "petrol-4-a": { count: 1 } },
      groups: [{ name: "Route 4", units: ["V-1", "v-2"], mostOut: 1 }],
      otherWork: [{ unit: "V-3", date: "2026-09-07", days: 1 }],
      taken: [{ depot: "lowmarsh", date: "2026-09-07" }],
      pins: [{ unit: "V-4", scope: "both", date: "2026-09-07" }],
    }),
  ).toEqual([
    ["depots.Nowhere", expect.stringMatching(/^No depot Nowhere is known: .*add it first/)],
    ["spares.petrol-9", expect.stringMatching(/^No engine model petrol-9 is known: look at/)],
    ["groups.0.units.1", expect.stringMatching(/^No unit v-2 is known: look at/)],
    ["otherWork.0.unit", expect.stringContaining("V-3")],
    ["taken.0.depot", expect.stringContaining("lowmarsh")],
    ["pins.0.unit", expect.stringContaining("V-4")],
  ]);
});

it("finds nothing where all is known", () => {
  expect(paths({ groups: [{ name: "Route 4", units: ["V-1", "V-2"], mostOut: 1 }] })).toEqual([]);
});

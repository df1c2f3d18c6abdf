import type { UnitReport } from "@/lib/schema/report.ts";

// A share of a coolant leak worth a warning before somebody opens the cap.
const coolantShare = 0.1;

/** Cautions that belong to the next steps of this unit, the most pressing first. */
export function cautionsFor({ model, assessment }: Pick<UnitReport, "model" | "assessment">): readonly string[] {
  const isDiesel = model.fuel?.toLowerCase().includes("diesel") ?? false;
  const coolant = assessment.cylinders.some((c) =>
    c.causes.some(
      ({ cause, probability }) =>
        (cause === "head-gasket" || cause === "cracked-head-or-block") && probability >= coolantShare,
    ),
  );
  const told: string[] = [];
  if (model.aircraft) told.push("Approved data and a licensed engineer decide; this page only records and plans.");
  if (model.leakDown !== undefined) {
    const clear = model.aircraft ? "hands off, propeller clear" : "hands and fan clear";
    told.push(`Test air can turn the crank: bar and socket off the bolt, ${clear}, wheels chocked, open air slowly.`);
  }
  if (model.compression !== undefined) {
    told.push("Before cranking: fuel and ignition off, neutral, no flame near, clear of belts.");
  }
  if (isDiesel) {
    told.push("Diesel: wait and relieve injection pressure first; spray that enters the skin is a case for hospital.");
  }
  if (coolant) told.push("Never open the cooling system hot.");
  return told;
}

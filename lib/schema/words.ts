/**
 * The words that files and JSON use, in the order in which they are told (contract, section 5).
 * Each list is the single source of its type and of the zod enums built on it.
 */

export const measures = ["compression-dry", "compression-wet", "leak-down"] as const;
export type Measure = (typeof measures)[number];

/** Measures that a cylinder is judged on; a wet compression is evidence for causes only. */
export const judgedMeasures = ["leak-down", "compression-dry"] as const;
export type JudgedMeasure = (typeof judgedMeasures)[number];

export const meterUnits = ["h", "km", "mi"] as const;
export type MeterUnit = (typeof meterUnits)[number];

export const pressureUnits = ["kPa", "bar", "psi", "kgf/cm2"] as const;
export type PressureUnit = (typeof pressureUnits)[number];

export const valueUnits = [...pressureUnits, "%"] as const;
export type ValueUnit = (typeof valueUnits)[number];

/** Where air was heard to escape in a leak-down test. */
export const places = ["crankcase", "inlet", "exhaust", "coolant", "neighbour", "none"] as const;
export type Place = (typeof places)[number];

/** Where sound cylinders let no air out: at valves and gasket. Some always passes the rings to the crankcase. */
export const leakPlaces: readonly Place[] = ["inlet", "exhaust", "coolant", "neighbour"];

export const causes = [
  "rings-or-bore",
  "piston",
  "inlet-valve",
  "exhaust-valve",
  "head-gasket",
  "cracked-head-or-block",
  "valve-timing",
  "test-set-up",
] as const;
export type Cause = (typeof causes)[number];

/** The class of repair that a cause calls for; `test-set-up` calls for none. */
export const repairClassOf = {
  "rings-or-bore": "bottom-end",
  piston: "bottom-end",
  "inlet-valve": "top-end",
  "exhaust-valve": "top-end",
  "head-gasket": "top-end",
  "cracked-head-or-block": "top-end",
  "valve-timing": "top-end",
  "test-set-up": "test-set-up",
} as const satisfies Record<Cause, "bottom-end" | "top-end" | "test-set-up">;

/** Ascending by urgency. */
export const bands = ["sound", "watch", "plan", "past-limit"] as const;
export type Band = (typeof bands)[number];

export const crossingStatuses = ["crossed", "projected", "not-foreseen", "too-few-tests"] as const;
export type CrossingStatus = (typeof crossingStatuses)[number];

export const repairScopes = ["top-end", "bottom-end", "complete", "engine-swap", "adjustment"] as const;
export type RepairScope = (typeof repairScopes)[number];

export const unitStatuses = ["in-service", "stopped", "retired"] as const;
export type UnitStatus = (typeof unitStatuses)[number];

export const checkKinds = [
  "borescope",
  "combustion-gas-in-coolant",
  "cooling-pressure",
  "valve-clearance",
  "valve-lift",
  "blow-by",
  "oil-use",
] as const;
export type CheckKind = (typeof checkKinds)[number];

/**
 * What a person says of a test, or of one cylinder's reading of it. `set-aside`: it was made, and is not used. `withdrawn`:
 * it was never made as it is told, so nothing of it is known. `none` takes back what was said before. Of a cylinder's
 * reading alone: `fault`, a fault had begun in the cylinder by this test, and the reading is accepted; `no-fault`, none had.
 */
export const verdicts = ["set-aside", "accepted", "fault", "no-fault", "withdrawn", "none"] as const;
export type Verdict = (typeof verdicts)[number];

/** Whether a verdict can only be of one cylinder's reading, and not of a whole test. */
export const isOfCylinder = (verdict: Verdict): verdict is "fault" | "no-fault" =>
  verdict === "fault" || verdict === "no-fault";

export const checkResults = ["clear", "suspect", "fault"] as const;
export type CheckResult = (typeof checkResults)[number];

/** The kinds of file that intake reads (contract, sections 1 to 4). */
export const fileKinds = [
  "tests-long",
  "tests-wide",
  "units",
  "depots",
  "repairs",
  "meters",
  "checks",
  "judgements",
  "engine-models",
] as const;
export type FileKind = (typeof fileKinds)[number];

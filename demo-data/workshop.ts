import type { Measure } from "../lib/schema/words.ts";
import { toKpa } from "../lib/units.ts";
import type { Row } from "./csv.ts";
import { largeOrificeMm, type Model, modelNamed, smallOrificeMm } from "./engine-models.ts";
import { gaugeFor, type LeakTester, peopleAt, readGauge, testerFor } from "./gauges.ts";
import { altitudeM, type Depot, type EngineTruth, type Occasion, type UnitPlan } from "./plan.ts";
import type { Random } from "./random.ts";
import { compressionOf, leakOf, shownPercent, wetRise } from "./truth.ts";

/** What a technician wrote down on one visit: a row a reading. Scatter: judgement, as an engine workshop knows it. */
const compressionShared = 0.025;
const compressionOwn = 0.015;
const leakageShared = 1.5;
const leakageOwn = 1;
const leakageOwnShare = 0.07;

/** The aircraft's testers show the pressure held of 80 psi. */
const aircraftSupplyPsi = 80;

/** Where the decompressor is not shut off, a compression test shows about this, whatever the state of the engine. */
const decompressedKpa = 420;

export interface Visit {
  readonly plan: UnitPlan;
  readonly occasion: Occasion;
  readonly truth: EngineTruth;
  readonly meter: number;
  readonly years: number;
  readonly random: Random;
}

/** The rows of one visit in the long layout. */
export function rowsOf(visit: Visit): Row[] {
  const { plan, occasion, random } = visit;
  const depot = occasion.depot ?? plan.depot;
  const people = peopleAt(depot);
  const person = people[random.whole(0, people.length - 1)] ?? "";
  // One pull on the battery, one warm-up: the dry and the wet test of a visit share their error.
  const shared = { compression: random.normal(0, compressionShared), leakage: random.normal(0, leakageShared) };
  const rpm = random.whole(188, 226);
  return occasion.measures.flatMap((measure) => measureRows(visit, measure, { depot, person, shared, rpm }));
}

interface VisitFacts {
  readonly depot: Depot;
  readonly person: string;
  readonly shared: { readonly compression: number; readonly leakage: number };
  readonly rpm: number;
}

function measureRows(visit: Visit, measure: Measure, facts: VisitFacts): Row[] {
  const { plan, occasion, truth, meter } = visit;
  const model = modelNamed(plan.model);
  const all = Array.from({ length: model.cylinders }, (_, i) => i + 1);
  const cylinders = all.filter((c) => occasion.only?.[measure]?.includes(c) ?? true);
  const common: Row = {
    unit: plan.unit,
    engine_model: model.id,
    test_date: occasion.date,
    meter,
    meter_unit: plan.meterUnit,
    test: measure,
    attempt: occasion.attempt ?? 1,
    depot: facts.depot,
    engine_serial: truth.serial,
    tested_by: facts.person,
    ...(occasion.remarks === undefined ? {} : { remarks: occasion.remarks }),
  };
  return measure === "leak-down"
    ? cylinders.map((c) => ({ ...common, cylinder: c, ...leakDownCells(visit, c, model, facts) }))
    : cylinders.map((c) => ({ ...common, cylinder: c, ...compressionCells(visit, measure, c, model, facts) }));
}

const withinPercent = (value: number) => Math.min(100, Math.max(0, value));

/** Set-up columns that belong to a measure, of those that the fault names. */
function noted(occasion: Occasion, columns: readonly string[]): Row {
  const given = Object.entries(occasion.fault?.noted ?? {}).filter(([column]) => columns.includes(column));
  return Object.fromEntries(given);
}

function leakDownCells(visit: Visit, cylinder: number, model: Model, { depot, shared }: VisitFacts): Row {
  const { plan, occasion, truth, years, random } = visit;
  const tester: LeakTester = occasion.tester ?? testerFor(depot, model);
  const leak = leakOf(model, truth, { cylinder, years });
  const supplyKpa = model.aircraft === true ? toKpa(aircraftSupplyPsi, "psi") : 550;
  const shown = shownPercent(leak.areaMm2, { orificeMm: tester.orificeMm, supplyKpa, altitudeM: altitudeM[depot] });
  // A dial that spreads its first quarter is read to half a per cent; its scatter in per cent is as much smaller.
  const fine = tester.orificeMm !== (model.leakDown?.orificeMm ?? smallOrificeMm);
  const scatter = plan.scatter * (fine ? 0.5 : 1);
  const own = random.normal(0, Math.hypot(leakageOwn, leakageOwnShare * shown));
  const read = withinPercent(shown + scatter * (shared.leakage + own));
  const faulty = withinPercent(occasion.fault?.leakage?.(cylinder, read) ?? read);
  const fixed = occasion.fixed?.["leak-down"]?.[cylinder];
  const setUp: Row = {
    warm: "yes",
    tdc_confirmed: "yes",
    gauge_zeroed: "yes",
    ...noted(occasion, ["warm", "tdc_confirmed", "gauge_zeroed"]),
    ...(tester.orificeNoted ? { orifice_mm: tester.orificeMm } : {}),
    instrument: tester.instrument,
    heard_at: leak.places.join("+"),
    ...heardAtFault(occasion, cylinder),
  };
  if (model.aircraft === true) {
    const held = fixed ?? Math.round(aircraftSupplyPsi * (1 - faulty / 100));
    return { ...setUp, value: held, value_unit: "psi", supply: aircraftSupplyPsi };
  }
  const step = fine ? 0.5 : 1;
  return { ...setUp, value: fixed ?? Math.round(faulty / step) * step, value_unit: "%", supply: supplyKpa };
}

/** A leak at the tester's hose is heard nowhere in the engine; a valve that stands open roars at its port. */
function heardAtFault({ fault }: Occasion, cylinder: number): Row {
  const heard = fault?.noted[`heard_${cylinder}`] ?? fault?.noted["heard"];
  return heard === undefined ? {} : { heard_at: heard };
}

function compressionCells(
  visit: Visit,
  measure: Measure,
  cylinder: number,
  model: Model,
  { depot, shared, rpm }: VisitFacts,
): Row {
  const { plan, occasion, truth, years, random } = visit;
  const gauge = gaugeFor(depot, model);
  const leak = leakOf(model, truth, { cylinder, years });
  const rings = truth.rings[cylinder - 1]?.(years) ?? 0;
  const newKpa = model.compression?.newKpa ?? decompressedKpa;
  const dry =
    model.compression === undefined
      ? decompressedKpa
      : compressionOf(newKpa, truth, { cylinder, years, usualPercent: leak.usualPercent, altitudeM: altitudeM[depot] });
  const oiled = measure === "compression-wet" ? dry * (1 + wetRise(rings)) : dry;
  const error = (1 + plan.scatter * shared.compression) * (1 + plan.scatter * random.normal(0, compressionOwn));
  const factor = occasion.fault?.compression?.(cylinder, leak.usualPercent) ?? 1;
  const value = occasion.fixed?.[measure]?.[cylinder] ?? readGauge(oiled * error * factor, gauge);
  const firstShare = random.normal(0.74 - 0.004 * Math.max(0, rings - 6), 0.012);
  return {
    value,
    value_unit: gauge.unit,
    instrument: gauge.instrument,
    warm: "yes",
    throttle_open: model.fuel === "diesel" ? "" : "yes",
    all_plugs_out: "yes",
    cranking_rpm: rpm,
    order: cylinder,
    ...(measure === "compression-dry" && model.fuel === "petrol"
      ? { first_stroke: Number((Math.round((value * firstShare) / gauge.step) * gauge.step).toFixed(2)) }
      : {}),
    ...noted(occasion, ["warm", "throttle_open", "all_plugs_out", "cranking_rpm"]),
  };
}

/** The tester with the larger bore that Midfell bought. */
export const midfellNewTester = (orificeNoted: boolean): LeakTester => ({
  instrument: "tester MF-6",
  orificeMm: largeOrificeMm,
  orificeNoted,
});

/**
 * Flow function of air, gamma 1.4. Constants and 17 pressure ratios: NACA Report 1135 (1953), recomputed with 40 digits
 * (tolerance 1e-9 relative; the table gives 10 decimals). Isentropic table: the area ratio printed in textbook appendices
 * of the same report (4 decimals, the last one off by one at Mach 0.64); its inverse is the flow as a share of the
 * choked flow. Tolerance 1e-8 there: ten digits of a pressure ratio near 1 leave no more of the drop.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { chokedFlow, criticalPressureRatio, flowFunction } from "@/lib/sealing/orifice.ts";

const read = (file: string) => readFileSync(new URL(`./data/${file}`, import.meta.url), "utf8");
const table = (file: string) =>
  read(file)
    .trim()
    .split("\n")
    .slice(1)
    .map((row) => row.split(",").map(Number));
const constants = JSON.parse(read("d_orifice_constants.json")) as Record<string, string>;

test("critical pressure ratio and choked flow", () => {
  expect(criticalPressureRatio).toBeCloseTo(Number(constants["critical_pressure_ratio"]), 14);
  expect(chokedFlow).toBeCloseTo(Number(constants["psi_choked"]), 13);
});

test("choked mass flux, scaled by the gas constant of ISO 2533", () => {
  const flux = chokedFlow / Math.sqrt(Number(constants["R_air_J_kgK_ISO2533"]));
  expect(flux).toBeCloseTo(Number(constants["choked_mass_flux_constant_sqrt_K_s_per_m"]), 12);
});

test.each(table("d_orifice_psi.csv"))("ratio %f: psi %f", (ratio, psi, share) => {
  const flow = flowFunction(1 - (ratio ?? Number.NaN));
  expect(flow).toBeCloseTo(psi ?? Number.NaN, 9);
  expect(flow / chokedFlow).toBeCloseTo(share ?? Number.NaN, 9);
});

test.each(table("d_isentropic_table.csv"))("Mach %f", (_mach, ratioPrinted, areaPrinted, ratio, area, share) => {
  const flowShare = flowFunction(1 - (ratio ?? Number.NaN)) / chokedFlow;
  expect(Math.abs(flowShare / (share ?? Number.NaN) - 1)).toBeLessThan(1e-8);
  expect(Math.abs(1 / flowShare / (area ?? Number.NaN) - 1)).toBeLessThan(1e-8);
  expect(Math.abs(1 / flowShare - (areaPrinted ?? Number.NaN))).toBeLessThanOrEqual(1e-4);
  expect(Math.abs((ratio ?? Number.NaN) - (ratioPrinted ?? Number.NaN))).toBeLessThanOrEqual(0.5001e-4);
});

/**
 * Two restrictors in series: 26 combinations of supply, bore, leak and ambient pressure, either one choked or not. The
 * model is the isentropic flow of NACA Report 1135 with equal discharge coefficients and temperatures; values recomputed
 * twice by independent programs (bisection at 40 digits; a root finder of R). Tolerance 1e-8 relative: the digits given.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { criticalPressureRatio, leakAreaMm2, leakagePercent, testerInUse } from "@/lib/sealing/orifice.ts";
import { absKpa, toKpa } from "@/lib/units.ts";

const [header = "", ...lines] = readFileSync(new URL("./data/d_two_orifice.csv", import.meta.url), "utf8")
  .trim()
  .split("\n");
const names = header.split(",");
const rows = lines.map((line) => Object.fromEntries(line.split(",").map((cell, i) => [names[i] ?? "", cell])));
const relative = (actual: number, wanted: number) => Math.abs(actual / wanted - 1);

test("26 combinations", () => expect(rows).toHaveLength(26));

test.each(rows)("$supply_psi_gauge psi, $restrictor_mm mm on $leak_mm mm, $ambient_kPa kPa", (row) => {
  const at = (name: string) => Number(row[name]);
  const tester = testerInUse({
    orificeMm: at("restrictor_mm"),
    supplyKpa: toKpa(at("supply_psi_gauge"), "psi"),
    ambientAbsKpa: absKpa(at("ambient_kPa")),
  });
  const leakage = leakagePercent(tester, (Math.PI / 4) * at("leak_mm") ** 2);
  expect(relative(leakage, at("leakage_percent"))).toBeLessThan(1e-8);
  // Percentages near 100 are given to 10 digits, too few to tell the area from: the cylinder's pressure is.
  const heldKpa = tester.supplyKpa * (1 - leakage / 100);
  expect(relative(tester.ambientAbsKpa + heldKpa, at("cylinder_kPa_abs"))).toBeLessThan(1e-8);
  const lost = (100 * (at("supply_kPa_abs") - at("cylinder_kPa_abs"))) / tester.supplyKpa;
  expect(relative(leakAreaMm2(tester, lost), at("leak_area_mm2"))).toBeLessThan(1e-6);
  const heldAbsKpa = tester.ambientAbsKpa + heldKpa;
  const isBoreChoked = heldAbsKpa / tester.supplyAbsKpa <= criticalPressureRatio;
  expect(isBoreChoked ? "choked" : "unchoked").toBe(row["restrictor_state"]);
  expect(tester.ambientAbsKpa / heldAbsKpa <= criticalPressureRatio ? "choked" : "unchoked").toBe(row["leak_state"]);
});

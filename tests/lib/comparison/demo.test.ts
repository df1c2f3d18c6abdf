import { describe, expect, test } from "vitest";
import { fastestOf } from "@/lib/comparison/rates.ts";
import { runsOf } from "@/lib/comparison/runs.ts";
import { unitCourses } from "@/lib/comparison/unit-courses.ts";
import type { WearCourse } from "@/lib/schema/comparison.ts";
import { type JudgedMeasure, judgedMeasures } from "@/lib/schema/words.ts";
import { median } from "@/lib/statistics/quantile.ts";
import { assessFleet, readDemo } from "../demo-fleet.ts";
import { compareModel, compareTesters } from "./whole.ts";

/** The demo fleet's stories and what is true of its generator, as the comparison tells them. */
const { facts } = await readDemo();
const kept = [...assessFleet(facts).units.values()].map(unitCourses);
const wear = kept.flatMap((of) => of.wear);
const testers = kept.flatMap((of) => of.testers);

const courseOf = (unit: string, measure: JudgedMeasure = "leak-down"): WearCourse => {
  const found = wear.find((c) => c.unit === unit && c.measure === measure);
  if (found === undefined) throw new Error(`no course of ${unit}`);
  return found;
};
const sistersOf = ({ engineModel, measure, meterUnit }: WearCourse) =>
  wear.filter((c) => c.engineModel === engineModel && c.measure === measure && c.meterUnit === meterUnit);

describe("sisters", () => {
  test("the generators' hours are not pooled with the trucks' distances", () => {
    const [trucks, generators] = [sistersOf(courseOf("H-301")), sistersOf(courseOf("G-501"))];
    expect(trucks.every((c) => c.unit.startsWith("H-"))).toBe(true);
    expect(generators.map((c) => c.unit)).toEqual(["G-501", "G-502"]);
  });

  // A gasket that goes is a step: what it will do from there on is too uncertain to call fast. Of two vans that wear as fast
  // as each other neither is faster than nine in ten sisters.
  test("no van stands out: two wear fast alike, and of a gasket that went at once it is too uncertain how fast", () => {
    const { comparison } = compareModel(sistersOf(courseOf("V-104"))) ?? {};
    expect(comparison?.standingOut).toEqual([]);
    const fastest = (unit: string) => fastestOf(courseOf(unit));
    const speeds = sistersOf(courseOf("V-104")).flatMap((of) => fastestOf(of)?.perThousand ?? []);
    const middle = median(speeds);
    for (const unit of ["V-104", "V-108"]) expect(fastest(unit)?.perThousand).toBeGreaterThan(1.2 * middle);
    expect(fastest("V-109")?.perThousand).toBe(Math.max(...speeds));
    expect(fastest("V-109")?.p10).toBeLessThan(middle);
    expect(comparison?.bands.find((b) => b.origin === "new" && b.figure === "weakest")?.stretches).toHaveLength(1);
  });

  test("a float engine has no course since new; one rebuilt has one since its bottom-end repair", () => {
    expect(runsOf(courseOf("H-302"), "new", "weakest")).toEqual([]);
    expect(courseOf("H-302").lives.every((life) => life.begunBy === "unknown")).toBe(true);
    const [rebuilt] = runsOf(courseOf("H-305"), "bottom-end", "weakest");
    expect(rebuilt?.points[0]?.[0]).toBeGreaterThan(0);
  });

  test("valves renewed in one cylinder begin a life of that cylinder alone", () => {
    const begun = courseOf("V-102").lives.filter((life) => life.begunBy === "top-end");
    expect(begun.map((life) => life.cylinder)).toEqual([4]);
  });

  test("a single with a decompressor is compared with its sisters by leak-down", () => {
    expect(sistersOf(courseOf("M-602")).map((c) => c.unit)).toEqual(["M-601", "M-602", "M-603"]);
  });

  test("a unit never tested has no course", () => expect(wear.some((c) => c.unit === "H-306")).toBe(false));
});

describe("testers: no gauge of the generator reads high", () => {
  test.each(judgedMeasures)("%s: none is accused", (measure) => {
    const { testers: of, unnamed } = compareTesters(
      measure,
      testers.filter((course) => course.measure === measure),
    );
    expect(of.length).toBeGreaterThan(5);
    expect(of.filter(({ verdict }) => verdict !== "none" && verdict !== "too-few")).toEqual([]);
    expect(unnamed).toBe(0);
  });

  test("Midfell's new tester reads as the old one where its bore is noted, and far lower where it is not", () => {
    const leakDown = testers.filter((course) => course.measure === "leak-down");
    const newOnes = compareTesters("leak-down", leakDown).testers.filter((t) => t.instrument === "tester MF-6");
    const [blank, noted] = [newOnes.find((t) => t.orificeMm === null), newOnes.find((t) => t.orificeMm !== null)];
    expect(blank?.units).toEqual(["P-403", "V-110"]);
    expect(blank?.soFar?.mean).toBeLessThan(-10);
    expect(noted?.soFar?.instrument).toBe("tester MF-4");
    expect(Math.abs(noted?.soFar?.mean ?? 99)).toBeLessThan(3);
  });
});

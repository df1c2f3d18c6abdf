import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { demoFiles } from "@/demo-data/files.ts";
import { fleetOf } from "@/demo-data/fleet.ts";
import { altitudeM, asOf, type Depot, demoSeed, firstDay } from "@/demo-data/plan.ts";
import { engineModelFileSchema } from "@/lib/schema/engine-model.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";

const folder = path.resolve(import.meta.dirname, "../../demo-data");
const committed = (name: string) => readFileSync(path.join(folder, name), "utf8");
const files = demoFiles(demoSeed);
const rowsIn = (text: string) => text.trimEnd().split("\n").length - 1;

describe("the demo's files", () => {
  test("the committed bytes are what the program makes, today as ever", () => {
    const names = readdirSync(folder).filter((name) => /\.(csv|json)$/.test(name));
    expect(names.toSorted()).toEqual([...files.keys()].toSorted());
    for (const [name, text] of files) expect(committed(name) === text, name).toBe(true);
  });

  test("another seed gives other readings of the same fleet", () => {
    const other = demoFiles(demoSeed + 1);
    expect(other.get("tests-lowmarsh.csv")).not.toBe(files.get("tests-lowmarsh.csv"));
    expect(other.get("engine-models.json")).toBe(files.get("engine-models.json"));
  });

  test("README.md tells how many rows each file has", () => {
    const told = new Map(
      [...committed("README.md").matchAll(/^\| `([\w-]+\.csv)`\s*\| (\d+)\s*\|/gm)].map(([, name, rows]) => [
        name,
        Number(rows),
      ]),
    );
    const real = new Map(
      [...files].filter(([name]) => name.endsWith(".csv")).map(([name, text]) => [name, rowsIn(text)]),
    );
    expect(told).toEqual(real);
  });

  test("engine models and settings pass the schemas that read them", () => {
    const { engineModels } = engineModelFileSchema.parse(JSON.parse(committed("engine-models.json")));
    expect(engineModels.map((model) => model.id)).toHaveLength(6);
    expect(settingsSchema.parse(JSON.parse(committed("settings.json")))).toMatchObject({
      fleetName: "Quillmere District Works",
      asOf,
    });
  });
});

describe("the demo's fleet", () => {
  const fleet = fleetOf(demoSeed);

  test("40 units, spread over the depots as told", () => {
    const at = (depot: Depot, letter: string) =>
      fleet.filter((plan) => plan.depot === depot && plan.unit.startsWith(letter)).length;
    const spread = Object.fromEntries(
      [..."VLHPGMA"].map((letter) => [letter, (Object.keys(altitudeM) as Depot[]).map((depot) => at(depot, letter))]),
    );
    expect(spread).toEqual({
      V: [6, 4, 2],
      L: [4, 3, 2],
      H: [3, 2, 2],
      P: [2, 1, 1],
      G: [1, 0, 1],
      M: [1, 1, 1],
      A: [1, 2, 0],
    });
  });

  test("yearly use lies where each class works", () => {
    const usual: Readonly<Record<string, readonly [number, number]>> = {
      V: [25_000, 45_000],
      L: [30_000, 60_000],
      H: [60_000, 110_000],
      G: [60, 2_500],
      P: [400, 900],
      M: [250, 600],
      A: [150, 350],
    };
    for (const { unit, yearly } of fleet) {
      const [least, most] = usual[unit.charAt(0)] ?? [0, 0];
      expect(yearly, unit).toBeGreaterThanOrEqual(least);
      expect(yearly, unit).toBeLessThanOrEqual(most);
    }
  });

  test("every unit but H-306 was tested on 5 to 9 days, all within the three years and on workdays", () => {
    for (const { unit, occasions } of fleet) {
      const days = [...new Set(occasions.map((occasion) => occasion.date))];
      if (unit === "H-306") expect(days).toEqual([]);
      else {
        expect(days.length, unit).toBeGreaterThanOrEqual(5);
        expect(days.length, unit).toBeLessThanOrEqual(9);
      }
      for (const day of days) {
        expect(day >= firstDay && day <= asOf, `${unit} ${day}`).toBe(true);
        expect([0, 6], `${unit} ${day}`).not.toContain(new Date(`${day}T00:00:00Z`).getUTCDay());
      }
    }
  });

  test("about one visit in twenty of the units without a story went wrong", () => {
    const plain = fleet.filter((plan) => plan.scatter === 1).flatMap((plan) => plan.occasions);
    const wrong = plain.filter((occasion) => occasion.fault !== undefined).length;
    expect(plain.length).toBeGreaterThan(100);
    expect(wrong / plain.length).toBeGreaterThan(0.025);
    expect(wrong / plain.length).toBeLessThan(0.1);
  });
});

import { describe, expect, test } from "vitest";
import { diagnoseEngine } from "@/lib/cause/diagnose.ts";
import { nextSteps, settlingSteps } from "@/lib/cause/next-steps.ts";
import { causeLabel, causeWords } from "@/lib/cause/words.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import { type Band, bands, causes } from "@/lib/schema/words.ts";
import { asOf, compressions, type EngineGiven, engine, leakDowns, petrol4 } from "./engines.ts";

const steps = (given: EngineGiven, band: Band | null = "plan", model: EngineModel = petrol4, cylinder = 2) => {
  const diagnosis = diagnoseEngine(engine({ ...given, model }), { asOf })[cylinder - 1];
  if (diagnosis === undefined) throw new Error(`no cylinder ${cylinder}`);
  return nextSteps(diagnosis, { model, band });
};
const titles = (...given: Parameters<typeof steps>) => steps(...given).map(({ title }) => title);
const words = (...given: Parameters<typeof steps>) =>
  steps(...given)
    .map((step) => `${step.title}. ${step.detail} ${step.caution ?? ""}`)
    .join(" ");

const exhaust: EngineGiven = { tests: leakDowns([[7, { value: 20, heardAt: ["exhaust"] }, 7, 7]]) };
const rings: EngineGiven = { tests: leakDowns([[17, 17, 18, 17]], ["crankcase"]) };
const gasket: EngineGiven = {
  tests: leakDowns([[7, { value: 28, heardAt: ["neighbour"] }, { value: 31, heardAt: ["neighbour"] }, 7]]),
};
const timing: EngineGiven = { tests: [...leakDowns([[7, 7, 7, 7]]), ...compressions([[1230, 1010, 1230, 1230]])] };
const notAtTdc: EngineGiven = { tests: [...leakDowns([[7, 96, 7, 7]]), ...compressions([[1230, 1230, 1230, 1230]])] };

describe("nextSteps", () => {
  test("a valve: clearance first, as the cheapest cure, then the rest", () => {
    expect(titles(exhaust)[0]).toBe("Check and adjust the valve clearance, then test again");
    expect(words(exhaust)).toContain("Silence at the tail pipe proves nothing");
  });

  test("one that is sold before its repair: nothing that a repair would be chosen by, only a test that may be wrong", () => {
    const sold = (given: EngineGiven) => {
      const diagnosis = diagnoseEngine(engine({ ...given, model: petrol4 }), { asOf })[1];
      if (diagnosis === undefined) throw new Error("no cylinder 2");
      return nextSteps(diagnosis, { model: petrol4, band: "plan", soldBefore: "Sold before." }).map((s) => s.title);
    };
    expect(titles(rings).some((title) => title.includes("borescope"))).toBe(true);
    expect(sold(rings)).toEqual(["Plan no overhaul"]);
    expect(sold(exhaust)).toEqual(["Plan no overhaul"]);
    expect(sold(notAtTdc)).toEqual(["Repeat the test of cylinder 2", "Plan no overhaul"]);
  });

  test("rings: a wet test, but not for a diesel and not where it misleads", () => {
    expect(titles(rings)).toContain("Wet compression test of cylinder 2");
    expect(words(rings, "plan", { ...petrol4, fuel: "diesel" })).not.toMatch(/wet/i);
    expect(words(rings, "plan", { ...petrol4, layout: "opposed" })).not.toMatch(/wet/i);
    expect(titles(rings, "plan", { ...petrol4, fuel: "diesel" })).toContain(
      "Measure the blow-by and look up the oil use",
    );
  });

  test("rings, fuel not known: the wet test says that it is not for a diesel, and cranking that fuel may spray", () => {
    const { fuel: _, ...unknown } = petrol4;
    for (const model of [unknown, { ...petrol4, fuel: "lpg" }]) {
      expect(words(rings, "plan", model)).toContain("Not on a diesel unless its manual allows it.");
      expect(words(rings, "plan", model)).toContain("If it is a diesel, relieve the injection pressure first");
    }
    expect(words(rings)).not.toMatch(/diesel/i);
  });

  test("gasket: gas in the coolant, leak-down of the neighbours, a quote as a range until it is open", () => {
    expect(titles(gasket)).toContain("Test the coolant for combustion gas");
    expect(titles(gasket)).toContain("Leak-down cylinders 1 to 3");
    expect(titles(gasket).at(-1)).toBe("Ask for the quote as a range");
    expect(words(gasket)).toContain("Never open a hot cooling system.");
  });

  test("timing: clearance, then measured lift; a test that looks wrong: repeat it before all else", () => {
    expect(titles(timing)).toContain("Measure the valve lift");
    expect(titles(notAtTdc)[0]).toBe("Repeat the test of cylinder 2");
    expect(titles(notAtTdc, "sound")[0]).toBe("Repeat the test of cylinder 2");
  });

  test("a last test in doubt is repeated before all else, and is the only step of a sound unit", () => {
    const diagnosis = diagnoseEngine(engine({ tests: leakDowns([[6, 6, 6, 6]]), model: petrol4 }), { asOf })[0];
    if (diagnosis === undefined) throw new Error("no cylinder");
    const repeats = [{ measure: "compression-dry", cylinder: null }] as const;
    expect(nextSteps(diagnosis, { model: petrol4, band: "sound", repeats }).map((s) => s.title)).toEqual([
      "Repeat the compression test of all cylinders",
    ]);
    const watched = nextSteps(diagnosis, { model: petrol4, band: "watch", repeats });
    expect(watched.length).toBeGreaterThan(1);
    expect(watched[0]?.caution).toContain("Fuel and ignition disabled");
    expect(watched.slice(1).every((s) => !s.caution?.includes("Fuel and ignition disabled"))).toBe(true);
  });

  test("an improvement that nobody explained is looked up in the papers before anything is measured", () => {
    const diagnosis = diagnoseEngine(engine({ ...rings, model: petrol4 }), { asOf })[1];
    if (diagnosis === undefined) throw new Error("no cylinder");
    const told = (band: Band) => nextSteps(diagnosis, { model: petrol4, band, unexplained: true }).map((s) => s.title);
    expect(told("watch")[0]).toBe("Look up job cards, engine number and tester");
    expect(told("watch").length).toBeGreaterThan(1);
    expect(told("sound")).toEqual(["Look up job cards, engine number and tester"]);
  });

  test("a wet test that was made is not asked for again", () => {
    const diagnosis = diagnoseEngine(engine({ ...rings, model: petrol4 }), { asOf })[1];
    if (diagnosis === undefined) throw new Error("no cylinder");
    const told = nextSteps(diagnosis, { model: petrol4, band: "plan", wetTested: true }).map((s) => s.title);
    expect(told.join()).not.toMatch(/wet/i);
  });

  test("a sound cylinder waits for its next test, one never tested needs a baseline", () => {
    expect(titles({ tests: leakDowns([[6, 6, 6, 6]]) }, "sound")).toEqual(["Test again at the usual interval"]);
    expect(titles({}, null)).toEqual(["Book a baseline test"]);
    expect(titles({})).toEqual(["Book a baseline test"]);
  });

  test("each caution is said once, at the first step that needs it", () => {
    for (const given of [exhaust, rings, gasket, timing, notAtTdc]) {
      expect(words(given).split("Test air can spin the crank").length).toBeLessThanOrEqual(2);
      expect(words(given).split("Fuel and ignition disabled").length).toBeLessThanOrEqual(2);
    }
    expect(words(exhaust)).toContain("Test air can spin the crank");
    expect(words(timing)).toContain("Fuel and ignition disabled");
  });

  test("for an aircraft approved data and a licensed engineer decide; nothing is ever called safe or airworthy", () => {
    const aircraft = { ...petrol4, aircraft: true };
    for (const given of [exhaust, rings, gasket, timing, notAtTdc, {}]) {
      for (const band of [...bands, null]) {
        const told = words(given, band, aircraft);
        expect(told).toContain("Approved data and a licensed engineer decide");
        expect(told).not.toMatch(/\bsafe\b|airworthy/i);
        // A reading that is made again before it is believed takes no place from the five.
        expect(steps(given, band, aircraft).length).toBeLessThanOrEqual(given === timing ? 7 : 6);
      }
    }
  });
});

test("every cause has a label and words of its own", () => {
  expect(causeLabel("exhaust-valve")).toBe("Exhaust valve or seat");
  expect(new Set(causes.map(causeLabel)).size).toBe(causes.length);
  expect(new Set(causes.map(causeWords)).size).toBe(causes.length);
});

describe("settlingSteps", () => {
  const settling = (
    given: EngineGiven,
    band: Band | null = "plan",
    model: EngineModel = petrol4,
    wetTested = false,
  ) => {
    const diagnosis = diagnoseEngine(engine({ ...given, model }), { asOf })[1];
    if (diagnosis === undefined) throw new Error("no cylinder 2");
    return settlingSteps(diagnosis, { model, band, wetTested });
  };

  test("each step names the causes that its outcome speaks for or against", () => {
    const wet = settling(rings).find(({ title }) => title.startsWith("Wet compression"));
    expect(wet?.causes).toContain("rings-or-bore");
    expect(wet?.causes).not.toContain("head-gasket");
    const coolant = settling(gasket).find(({ title }) => title === "Test the coolant for combustion gas");
    expect(coolant?.causes).toContain("head-gasket");
    for (const given of [exhaust, rings, gasket, timing]) {
      for (const { causes: told } of settling(given)) expect(told.length).toBeGreaterThan(0);
    }
  });

  test("no step that this engine cannot take, and no wet test that was made lately", () => {
    const wet = (...given: Parameters<typeof settling>) =>
      settling(...given).some(({ title }) => title.startsWith("Wet"));
    expect(wet(rings)).toBe(true);
    expect(wet(rings, "plan", { ...petrol4, fuel: "diesel" })).toBe(false);
    expect(wet(rings, "plan", petrol4, true)).toBe(false);
  });

  test("nothing of a sound cylinder or one never tested, unless its test is what wants settling", () => {
    expect(settling(rings, "sound")).toEqual([]);
    expect(settling({ tests: [] }, null)).toEqual([]);
    expect(settling(notAtTdc, "sound")[0]?.causes).toContain("test-set-up");
  });
});

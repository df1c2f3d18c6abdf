import { describe, expect, it } from "vitest";
import {
  atCylinder,
  type DeviceDraft,
  deviceDraftSchema,
  earlierField,
  entryTyped,
  leftUnconfirmed,
  newDraft,
  notKept,
  notKeptWords,
  sendable,
  setUpProblems,
  takesMore,
  termsOf,
  withoutReading,
  withReading,
} from "@/app/_ui/test-sheet/device-draft.ts";
import { mostReadings } from "@/lib/schema/test-draft.ts";
import type { SheetFacts } from "@/lib/test-entry/sheet-facts.ts";
import { compressionFacts, leakDownFacts } from "../../lib/test-entry/made-up.ts";

const facts: SheetFacts = {
  unit: "V-1",
  depot: "Highcol",
  modelName: "petrol",
  fuel: "petrol",
  layout: "in-line",
  aircraft: false,
  cylinders: 4,
  meter: { value: 1500, unit: "h" },
  tests: [compressionFacts([1150, 1160, 1140, 1155]), leakDownFacts([12, 12, 12, 12])],
};

function begun(test: "compression-dry" | "leak-down" = "compression-dry"): DeviceDraft {
  const of = facts.tests.find((each) => each.test === test)!;
  const id = "00112233445566778899aabb";
  return newDraft({ id, facts, of, date: "2026-06-20", testedBy: "A. Fitter", pressure: "psi" });
}

const typing = (draft: DeviceDraft, more: Partial<DeviceDraft["typing"]>): DeviceDraft => ({
  ...draft,
  typing: { ...draft.typing, ...more },
});
const entry = (cylinder: number, value: number) => ({ cylinder, value, firstStroke: null });

describe("a sheet as it begins", () => {
  it("reads in the viewer's unit of pressure, and a leak-down in % on the model's usual bore", () => {
    expect(begun().valueUnit).toBe("psi");
    expect(begun("leak-down")).toMatchObject({ valueUnit: "%", fields: { orificeMm: "1.016", supply: "" } });
  });

  it("confirms nothing, so what is skipped is sent as not confirmed", () => {
    const draft = withReading({ ...begun(), fields: { ...begun().fields, meter: "1510" } }, entry(1, 167), []);
    const read = sendable(draft, ".");
    expect("test" in read && Object.values(read.test.setUp)).toEqual(Array.from({ length: 8 }, () => null));
  });

  it("is read back from the text that the device keeps, and what is no sheet is not", () => {
    const draft = typing(begun(), { cylinder: 2, value: "11,", heardAt: ["inlet"] });
    expect(deviceDraftSchema.parse(JSON.parse(JSON.stringify(draft)))).toEqual(draft);
    expect(deviceDraftSchema.safeParse({ ...draft, version: 2 }).success).toBe(false);
  });
});

describe("a reading that is typed", () => {
  it("is read by the viewer's decimal sign", () => {
    const draft = typing(begun(), { cylinder: 1, value: "11,5", firstStroke: "7,25" });
    expect(entryTyped(draft, ",")).toEqual({ entry: { cylinder: 1, value: 11.5, firstStroke: 7.25 } });
  });

  it("of two meanings or of none is not taken, and says so beside its field", () => {
    const of = (value: string, firstStroke = "") =>
      entryTyped(typing(begun(), { cylinder: 1, value, firstStroke }), ".");
    expect(of("1,150")).toMatchObject({ problems: { value: expect.stringContaining("1150 or as 1.15") } });
    expect(of("low")).toMatchObject({ problems: { value: expect.stringContaining("Write a figure") } });
    expect(of("")).toMatchObject({ problems: { value: expect.stringContaining("what the gauge reads") } });
    expect(of("1150", "x")).toMatchObject({ problems: { firstStroke: expect.anything() } });
  });

  it("stays with its cylinder while another is measured, and has to be asked about anew", () => {
    const draft = typing(begun(), { cylinder: 3, value: "620", firstStroke: "300", remarks: "hiss", isAsked: true });
    const other = atCylinder(draft, 1);
    expect(other.typing).toEqual({ ...begun().typing, cylinder: 1 });
    const kept = withReading(typing(other, { value: "1115" }), entry(1, 1115), []);
    expect(kept.readings).toEqual([{ ...entry(1, 1115), heardAt: [], remarks: null, asked: [] }]);
    const back = atCylinder(kept, 3);
    expect(back.typing).toEqual({ ...draft.typing, isAsked: false });
    expect(back.parked).toEqual([]);
  });

  it("is told before the sheet is sent where it was not kept, and what is blank is not", () => {
    const filled = { ...begun("leak-down"), fields: { ...begun("leak-down").fields, meter: "1510" } };
    const one = withReading(filled, entry(1, 20), []);
    const typed = typing(one, { cylinder: 4, value: "9" });
    for (const draft of [typed, atCylinder(typed, 2), atCylinder(typed, null)]) {
      expect(notKeptWords(draft)).toContain("cylinder 4 (9)");
      expect(sendable(draft, ".")).toMatchObject({ problems: { typing: expect.stringContaining("cylinder 4 (9)") } });
    }
    expect(notKept(atCylinder(typing(one, { cylinder: 4, heardAt: ["exhaust"] }), 2))).toHaveLength(1);
    expect(notKeptWords(atCylinder(typing(one, { cylinder: 4, value: " " }), 2))).toBe(null);
    expect("test" in sendable(one, ".")).toBe(true);
  });

  it("is kept with its note, its places and what was asked about it; the next begins blank", () => {
    const draft = typing(begun("leak-down"), { cylinder: 1, value: "40", heardAt: ["exhaust"], remarks: " hiss " });
    const kept = withReading(draft, entry(1, 40), ["Far from the last test."]);
    expect(kept.readings).toEqual([
      { ...entry(1, 40), heardAt: ["exhaust"], remarks: "hiss", asked: ["Far from the last test."] },
    ]);
    expect(kept.typing).toMatchObject({ cylinder: null, value: "", heardAt: [], remarks: "" });
    expect(withoutReading(kept, 0).readings).toEqual([]);
  });

  it("one cylinder takes several readings, but not without end", () => {
    let draft = begun();
    for (let i = 0; i < mostReadings; i++) {
      expect(takesMore(draft, 1)).toBe(true);
      draft = withReading(draft, entry(1, 1150), []);
    }
    expect(takesMore(draft, 1)).toBe(false);
    expect(takesMore(draft, 2)).toBe(true);
  });
});

describe("what is sent", () => {
  const filled = (more: Partial<DeviceDraft["fields"]>, test: "compression-dry" | "leak-down" = "compression-dry") => {
    const draft = withReading(begun(test), entry(1, 20), []);
    return { ...draft, fields: { ...draft.fields, meter: "1510", ...more } };
  };

  it("is the sheet in figures, blank fields as not recorded", () => {
    const read = sendable(filled({ crankingRpm: "210", instrument: " gauge 4 ", remarks: "" }), ".");
    expect(read).toMatchObject({
      test: { unit: "V-1", depot: "Highcol", meter: 1510, crankingRpm: 210, instrument: "gauge 4", remarks: null },
    });
  });

  it("names each field that is missing or unclear", () => {
    const problems = (draft: DeviceDraft) => {
      const read = sendable(draft, ".");
      return "problems" in read ? Object.keys(read.problems) : [];
    };
    expect(problems(filled({ meter: "" }))).toEqual(["meter"]);
    expect(problems(filled({ meter: "148,600" }))).toEqual(["meter"]);
    expect(problems(filled({ date: "" }))).toEqual(["date"]);
    expect(problems({ ...begun(), fields: { ...begun().fields, meter: "1510" } })).toEqual(["readings"]);
    expect(problems({ ...filled({}, "leak-down"), valueUnit: "psi" })).toEqual(["supply"]);
    expect(problems(filled({ supply: "x" }, "leak-down"))).toEqual(["supply"]);
  });

  it("a bore that was written in by the page is read with its point by everybody", () => {
    expect(termsOf(filled({}, "leak-down"), ",").orificeMm).toBe(1.016);
    expect(sendable(filled({}, "leak-down"), ",")).toMatchObject({ test: { orificeMm: 1.016 } });
  });

  it("is asked about the set-up as that step is left, before there is a meter or a reading", () => {
    const typed = (more: Partial<DeviceDraft["fields"]>) => ({ ...begun(), fields: { ...begun().fields, ...more } });
    expect(setUpProblems(begun(), ".")).toEqual({});
    expect(setUpProblems(typed({ crankingRpm: "2oo" }), ".")).toEqual({
      crankingRpm: expect.stringContaining("Write a figure"),
    });
    const long = typed({ instrument: "x".repeat(500), testedBy: "y".repeat(500) });
    expect(Object.keys(setUpProblems(long, ".")).sort()).toEqual(["instrument", "testedBy"]);
    const bore = { ...begun("leak-down"), fields: { ...begun("leak-down").fields, orificeMm: "wide" } };
    expect(Object.keys(setUpProblems(bore, "."))).toEqual(["orificeMm"]);
  });

  it("that is refused at the end names its field, and the step that it is put right in", () => {
    const read = sendable(filled({ crankingRpm: "2oo", meter: "" }), ".");
    const names = "problems" in read ? Object.keys(read.problems) : [];
    expect(names.sort()).toEqual(["crankingRpm", "meter"]);
    expect(names.map(earlierField)).toEqual([{ step: "set-up", label: "Cranking speed" }, undefined]);
  });

  it("is not begun with fuel, ignition or a free crankshaft told as live, but may be left not confirmed", () => {
    const told = (test: "compression-dry" | "leak-down", more: Partial<DeviceDraft["setUp"]>) => {
      const draft = begun(test);
      return Object.keys(setUpProblems({ ...draft, setUp: { ...draft.setUp, ...more } }, "."));
    };
    expect(told("compression-dry", { fuelAndIgnitionOff: false })).toEqual(["fuelAndIgnitionOff"]);
    expect(told("compression-dry", { fuelAndIgnitionOff: true, crankshaftHeld: false })).toEqual([]);
    expect(told("leak-down", { fuelAndIgnitionOff: false, crankshaftHeld: false })).toEqual([
      "fuelAndIgnitionOff",
      "crankshaftHeld",
    ]);
    expect(told("leak-down", { fuelAndIgnitionOff: null, crankshaftHeld: null, warm: false })).toEqual([]);
  });

  it("keeps in its notes that an answer of no was left not confirmed, once, and cuts nobody's words for it", () => {
    const question = { id: "fuelAndIgnitionOff", asks: "Fuel and ignition disabled" } as const;
    const no = (remarks: string): DeviceDraft => {
      const draft = filled({ remarks });
      return { ...draft, setUp: { ...draft.setUp, fuelAndIgnitionOff: false } };
    };
    const left = leftUnconfirmed(no("Cold day."), question);
    expect(left.setUp.fuelAndIgnitionOff).toBe(null);
    expect(left.fields.remarks).toBe(
      "Cold day. Fuel and ignition disabled: answered with no, then left not confirmed.",
    );
    expect(leftUnconfirmed(left, question).fields).toEqual(left.fields);
    expect(leftUnconfirmed(no("x".repeat(1_000)), question).fields.remarks).toBe("x".repeat(1_000));
  });
});

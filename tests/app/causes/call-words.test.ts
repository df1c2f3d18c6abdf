import { describe, expect, it } from "vitest";
import {
  calledRows,
  callsFinding,
  countOf,
  listedWords,
  noCallsFinding,
  outcomeWords,
  rightWords,
} from "@/app/_ui/causes/call-words.ts";
import { callsTable } from "@/app/_ui/causes/calls-file.ts";
import { type Call, calledClasses, foundClasses, isRightCall } from "@/lib/cause/calls.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const call = (found: Call["found"], right: boolean | null = found === "top-end"): Call => ({
  case: {
    engine: "E-1",
    unit: "V-1",
    engineModel: "petrol-4-a",
    meterUnit: "km",
    date: "2026-01-02",
    cylinder: 2,
    scope: "top-end",
    found: found === "sound" ? [] : ["exhaust-valve"],
    tested: right !== null,
    seen: [],
    asked: [],
  },
  called: right === null ? null : { class: "top-end", probability: 0.8, cause: "exhaust-valve" },
  issued: null,
  found,
  right,
});
const times = (count: number, one: Call) => Array.from({ length: count }, () => one);

describe("how often calls were right", () => {
  it("is counted under 20 outcomes, and from 20 on a share with its interval", () => {
    expect(rightWords(f, [...times(15, call("top-end")), ...times(4, call("bottom-end"))])).toBe("15 of 19 right");
    // Wilson's 95 % interval of 15 of 20: 53 to 89 %.
    expect(
      rightWords(f, [...times(15, call("top-end")), ...times(5, call("bottom-end"))]).replaceAll("\u00a0", " "),
    ).toBe("15 of 20 right, 75 % (53 to 89 %)");
    expect(rightWords(f, [call("top-end", null)])).toBe("nothing was called before");
  });

  it("tells those opened and found sound, and those never tested apart from those missed", () => {
    const calls = [call("top-end"), call("sound"), call("bottom-end"), call("top-end", null)];
    expect(calls.map(outcomeWords)).toEqual(["right", "opened and found sound", "missed", "never tested before"]);
    expect(callsFinding(f, calls)).toBe(
      "4 cylinders were opened; the class of repair called the day before: 1 of 3 right; 1 found sound.",
    );
    expect(calledRows(calls)).toEqual(["top-end", "bottom-end", "test-set-up", null]);
    expect(calledRows(calls.slice(0, 3))).not.toContain(null);
    expect([countOf(calls, "top-end", "sound"), countOf(calls, null, "top-end")]).toEqual([1, 1]);
  });

  it("is shown in the cells that count it: those of right calls add up to the calls that were right", () => {
    const both = { ...call("both"), right: true };
    const calls = [...times(3, call("top-end")), ...times(2, both), call("bottom-end"), call("sound")];
    const right = calledClasses.flatMap((called) =>
      foundClasses.filter((found) => isRightCall(called, found)).map((found) => countOf(calls, called, found)),
    );
    expect(right.reduce((a, b) => a + b)).toBe(5);
    expect(rightWords(f, calls)).toBe("5 of 7 right");
    expect(isRightCall("test-set-up", "both")).toBe(false);
  });

  it("without a call says of what there is none: the fleet, one engine model, or one that is unknown", () => {
    const of = (id: string, isKnown: boolean, others: number) => noCallsFinding(f, { id, isKnown }, others);
    expect(noCallsFinding(f, null, 0)).toMatch(/^No strip-down finding is on file yet/);
    expect(of("air-1-a", true, 0)).toMatch(/^No strip-down finding is on file yet/);
    expect(of("air-1-a", true, 12)).toBe(
      "No strip-down finding of air-1-a is on file yet; of other engine models there are 12.",
    );
    expect(of("air-9", false, 12)).toBe("No engine model air-9 is on file.");
  });

  it("says how many cases a list leaves to the file", () => {
    expect(listedWords(f, 200, 1340)).toBe("The latest 200 of 1,340; the file has all of them.");
    expect(listedWords(f, 40, 40)).toBe("");
  });

  it("goes into the file case by case", () => {
    const { head, rows } = callsTable([{ engineModel: "petrol-4-a", name: "Petrol", calls: [call("sound")] }]);
    const row = Object.fromEntries(head.map((name, i) => [name, rows[0]?.[i]]));
    expect(row).toMatchObject({ unit: "V-1", called_class: "top-end", found: "sound", found_class: "sound" });
  });
});

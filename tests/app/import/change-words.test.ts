import { describe, expect, test } from "vitest";
import { changeLines, thingTitle } from "@/app/_ui/import/change-words.ts";
import type { ChangedThing } from "@/db/changed-rows.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);

const thing = (kind: ChangedThing["kind"], subject: string, about: ChangedThing["about"]): ChangedThing => ({
  kind,
  subject,
  about,
  file: "f.csv",
  line: 2,
  changes: [],
});

describe("what changes", () => {
  test("a test by its date, measure, attempt and tester", () => {
    expect(thingTitle(thing("tests", "V-112", ["2026-05-03", "leak-down", 1, null]), f)).toBe(
      "V-112: leak-down, 3 May 2026",
    );
    expect(thingTitle(thing("tests", "V-112", ["2026-05-03", "leak-down", 2, "T1"]), f)).toBe(
      "V-112: leak-down, 3 May 2026, attempt 2, T1",
    );
  });
  test("others by what tells them apart", () => {
    expect(thingTitle(thing("depots", "Highcol", []), f)).toBe("Highcol: depot");
    expect(thingTitle(thing("repairs", "V-1", ["2026-05-03", "top-end", "1+2"]), f)).toBe(
      "V-1: repair, 3 May 2026, top-end, 1+2",
    );
    expect(thingTitle(thing("meterReadings", "V-1", ["2026-05-03", "no"]), f)).toBe("V-1: meter reading, 3 May 2026");
  });
});

describe("a changed cell", () => {
  const change = (column: string, before: unknown, after: unknown, cylinder: number | null = null) =>
    changeLines({ column, cylinder, before, after }, f);
  test("of a likelihood is told in per cent, as its form asks for it", () => {
    const model = (piston: number) => ({
      evidence: { "heard-exhaust": { likelihoods: { piston }, reason: "long ports" } },
    });
    expect(change("model", model(0.07), model(0.29))).toEqual([
      { column: expect.stringMatching(/^finding “.*”: piston, %$/), before: "7", after: "29" },
    ]);
  });
  test("carries its column as the file spells it, and its cylinder", () =>
    expect(change("firstStroke", null, 410, 3)).toEqual([
      { column: "cylinder 3, first_stroke", before: "blank", after: "410" },
    ]));
  test("yes and no, dates and lists read as in a file or a sentence", () => {
    expect(change("warm", true, false)[0]).toMatchObject({ before: "yes", after: "no" });
    expect(change("inServiceDate", "2026-01-02", "2026-01-03")[0]).toMatchObject({ after: "3 Jan 2026" });
    expect(change("found", [], ["piston", "head-gasket"])[0]).toMatchObject({
      before: "blank",
      after: "piston+head-gasket",
    });
  });
  test("an engine model shows only the figures that differ", () =>
    expect(
      change(
        "model",
        { id: "m", compression: { newKpa: 1250, minimumKpa: 900 }, neighbours: [[1, 2]] },
        { id: "m", compression: { newKpa: 1250, minimumKpa: 880, spreadPercent: 25 }, neighbours: [[1, 2]] },
      ),
    ).toEqual([
      { column: "compression, minimum, kPa", before: "900", after: "880" },
      { column: "spread, %", before: "blank", after: "25" },
    ]));
});

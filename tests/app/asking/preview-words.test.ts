import { describe, expect, test } from "vitest";
import type { ChangedUnit } from "@/app/_jobs/preview-bands.ts";
import { previewFinding, windowMoves } from "@/app/_ui/asking/preview-words.ts";
import type { WindowDates } from "@/lib/schema/report.ts";
import type { Band } from "@/lib/schema/words.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const none: WindowDates = { status: "not-foreseen", p10: null, p50: null, p90: null };
const likely: WindowDates = { status: "projected", p10: "2027-01-05", p50: "2028-06-09", p90: "2029-06-01" };
const told = (band: Band, topEnd = none) => ({ band, topEnd, bottomEnd: none });
const changed = (before: ChangedUnit["before"], after: ChangedUnit["after"]) => ({ unit: "V-1", before, after });

describe("what a change would do", () => {
  test("counts bands first, then windows alone", () => {
    const band = changed(told("sound"), told("watch"));
    const window = changed(told("sound"), told("sound", likely));
    expect(previewFinding(f, { units: 12, changes: [] })).toBe("No unit would change its band.");
    expect(previewFinding(f, { units: 12, changes: [band] })).toBe("1 of 12 units would change its band.");
    expect(previewFinding(f, { units: 12, changes: [band, band, window] })).toBe(
      "2 of 12 units would change their band; 1 more would keep theirs and get another window.",
    );
  });
  test("tells of each window when the repair was likely, and would be", () => {
    expect(windowMoves(f, changed(told("sound"), told("watch", likely)))).toEqual(["top-end not foreseen → Jun 2028"]);
    expect(windowMoves(f, changed(told("plan", likely), told("past-limit", { ...likely, status: "crossed" })))).toEqual(
      ["top-end Jun 2028 → now"],
    );
    const open: WindowDates = { ...likely, p50: null, p90: null };
    expect(windowMoves(f, changed(told("watch", open), told("sound", { ...none, status: "too-few-tests" })))).toEqual([
      "top-end from Jan 2027, likely beyond the horizon → too few tests",
    ]);
    expect(windowMoves(f, changed(null, told("sound")))).toEqual([
      "top-end not told → not foreseen",
      "bottom-end not told → not foreseen",
    ]);
    expect(windowMoves(f, changed(told("sound", likely), told("watch", likely)))).toEqual([]);
  });
});

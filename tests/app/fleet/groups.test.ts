import { describe, expect, test } from "vitest";
import { groupName, groupRuns } from "../../../app/_ui/fleet/groups.ts";
import { groupWords } from "../../../app/_ui/fleet/row-words.ts";
import type { FleetGroup } from "../../../lib/schema/report.ts";
import { formatsOf } from "../../../lib/viewing/formats.ts";
import { plainPreferences } from "../../../lib/viewing/preferences.ts";
import { row } from "./made-up-row.ts";

const f = formatsOf(plainPreferences);

const group = (key: string | null, units: number, more: Partial<FleetGroup> = {}): FleetGroup => ({
  key,
  name: key,
  units,
  pastLimit: 0,
  soon: 0,
  ...more,
});

describe("groups of a page", () => {
  const groups = [group("Highcol", 3), group("Lowmarsh", 2), group(null, 1)];
  const runsOf = (rows: readonly ReturnType<typeof row>[], before: number) =>
    groupRuns(rows, groups, { grouping: "depot", before }).map((run) => [
      run.group.key,
      run.continued,
      run.rows.map(({ unit }) => unit),
    ]);

  test("each has its rows, and those without a key stand together", () => {
    const rows = [row("V-1"), row("V-2"), row("V-3"), row("V-4", { depot: "Lowmarsh" }), row("V-6", { depot: null })];
    expect(runsOf(rows, 0)).toEqual([
      ["Highcol", false, ["V-1", "V-2", "V-3"]],
      ["Lowmarsh", false, ["V-4"]],
      [null, false, ["V-6"]],
    ]);
  });

  test("the first of a later page goes on where its group began before it", () => {
    expect(runsOf([row("V-3"), row("V-4", { depot: "Lowmarsh" })], 2)).toEqual([
      ["Highcol", true, ["V-3"]],
      ["Lowmarsh", false, ["V-4"]],
    ]);
    expect(runsOf([row("V-4", { depot: "Lowmarsh" })], 3)).toEqual([["Lowmarsh", false, ["V-4"]]]);
  });

  test("models are told apart by their id, and called by their name", () => {
    const model = group("diesel-6", 1, { name: "Big six" });
    const [run] = groupRuns([row("V-1", { engineModel: "diesel-6" })], [model], { grouping: "model", before: 0 });
    expect(run?.rows).toHaveLength(1);
    expect(groupName(model, "model")).toBe("Big six");
  });

  test("what has no depot or band is called so", () => {
    expect(groupName(group(null, 1), "depot")).toBe("No depot on file");
    expect(groupName(group(null, 1), "band")).toBe("no band yet");
  });
});

describe("a group in words", () => {
  test("says how many units it has, and what of it is due", () => {
    expect(groupWords(group("A", 8, { pastLimit: 1, soon: 3 }), { grouping: "depot", within: "a year", f })).toBe(
      "8 units, 1 past limit and 3 likely due within a year",
    );
    expect(groupWords(group("A", 1, { soon: 1 }), { grouping: "model", within: "six months", f })).toBe(
      "1 unit, 1 likely due within six months",
    );
    expect(groupWords(group("A", 2), { grouping: "depot", within: "a year", f })).toBe(
      "2 units, none likely due within a year",
    );
    expect(groupWords(group("past-limit", 2, { pastLimit: 2 }), { grouping: "band", within: "a year", f })).toBe(
      "2 units",
    );
  });
});

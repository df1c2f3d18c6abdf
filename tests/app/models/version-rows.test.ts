import { describe, expect, test } from "vitest";
import { versionRows } from "@/app/_ui/models/version-rows.ts";
import type { ModelVersion } from "@/db/engine-models.ts";
import { engineModelSchema } from "@/lib/schema/engine-model.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const model = (limitPercent: number) =>
  engineModelSchema.parse({ id: "x", cylinders: 4, leakDown: { watchPercent: 1, planPercent: 2, limitPercent } });
const version = (no: number, limitPercent: number, state: ModelVersion["state"] = "committed"): ModelVersion => ({
  importId: `i${no}`,
  version: no,
  model: model(limitPercent),
  state,
  origin: "form",
  committedAt: "2026-06-30T08:00:00.000Z",
  committedBy: "A",
  undoneAt: null,
  undoneBy: null,
});
const told = (...newestFirst: readonly ModelVersion[]) => {
  const standing = newestFirst.find(({ state }) => state === "committed")?.model ?? null;
  return versionRows(newestFirst, standing, f).map(({ importId, isFirst, isInForce, changes }) => [
    importId,
    isFirst ? "first" : changes.map(({ before, after }) => `${before} to ${after}`).join(),
    isInForce,
  ]);
};

describe("versions of a model", () => {
  test("tell field by field what each changed, and which is in force", () => {
    expect(told(version(3, 25), version(2, 20), version(1, 30))).toEqual([
      ["i3", "20 to 25", true],
      ["i2", "30 to 20", false],
      ["i1", "first", false],
    ]);
  });
  test("that only told the same again are left out", () => {
    expect(told(version(2, 30), version(1, 30))).toEqual([["i1", "first", true]]);
  });
  test("undone since are told, and later ones are compared with what was left", () => {
    expect(told(version(3, 25), version(2, 20, "undone"), version(1, 30))).toEqual([
      ["i3", "30 to 25", true],
      ["i2", "30 to 20", false],
      ["i1", "first", false],
    ]);
    expect(told(version(2, 20, "undone"), version(1, 30))).toEqual([
      ["i2", "30 to 20", false],
      ["i1", "first", true],
    ]);
  });
});

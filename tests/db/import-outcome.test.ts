import { describe, expect, test } from "vitest";
import { keepReports } from "@/db/assessments.ts";
import { importOutcome } from "@/db/import-outcome.ts";
import { keptAssessments } from "@/db/kept-assessments.ts";
import { at, temporaryStore } from "./made-up.ts";
import { report } from "./made-up-report.ts";

const banded = (unit: string, band: "sound" | "watch" | "plan" | null) => report(unit, { assessment: { band } });

describe("what an import did", () => {
  test("counts the units that it had assessed, and names those that stand in another band than before", async () => {
    const store = await temporaryStore();
    const first = [banded("V-1", "sound"), banded("V-2", "watch"), banded("V-3", null)];
    await keepReports(store, first, { because: "import", importId: "a", at, version: 1 });
    await keepReports(store, [banded("V-1", "watch")], { because: "pool", importId: null, at, version: 1 });
    const second = [banded("V-1", "plan"), banded("V-2", "watch"), banded("V-3", "sound"), banded("V-4", "plan")];
    await keepReports(store, second, { because: "import", importId: "b", at, version: 1 });
    await keepReports(store, [banded("V-2", "plan")], { because: "import", importId: "c", at, version: 1 });
    expect(await importOutcome(store, "b", { limit: 10 })).toEqual({
      units: 4,
      changed: 2,
      changes: [
        { unit: "V-1", before: "watch", after: "plan" },
        { unit: "V-3", before: null, after: "sound" },
      ],
    });
    expect(await importOutcome(store, "b", { limit: 1 })).toMatchObject({ changed: 2, changes: [{ unit: "V-1" }] });
  });

  test("first assessments are no change, and an undo is not the import's doing", async () => {
    const store = await temporaryStore();
    await keepReports(store, [banded("V-1", "plan")], { because: "import", importId: "a", at, version: 1 });
    await keepReports(store, [banded("V-1", "sound")], { because: "undo", importId: "a", at, version: 1 });
    expect(await importOutcome(store, "a", { limit: 10 })).toEqual({ units: 1, changed: 0, changes: [] });
    expect(await importOutcome(store, "never", { limit: 10 })).toEqual({ units: 0, changed: 0, changes: [] });
  });
});

describe("the assessments in force", () => {
  test("each unit once, by number, over any number of pages", async () => {
    const store = await temporaryStore();
    const names = Array.from({ length: 205 }, (_, index) => `V-${index + 1}`);
    await keepReports(
      store,
      [...names].reverse().map((name) => report(name)),
      { because: "rebuild", at, version: 1 },
    );
    const units: string[] = [];
    for await (const page of keptAssessments(store)) units.push(...page.map((assessment) => assessment.unit));
    expect(units).toEqual(names);
  });

  test("none", async () => {
    for await (const page of keptAssessments(await temporaryStore())) throw new Error(`${page.length}`);
  });
});

import { describe, expect, it } from "vitest";
import { keepReports } from "@/db/assessments.ts";
import { reportsOf, roundUnits } from "@/db/round.ts";
import { at, temporaryStore } from "./made-up.ts";
import { report } from "./made-up-report.ts";

const doubt = { measure: "leak-down" as const, cylinder: 1, words: "Last leak-down test, cylinder 1: too good" };

async function fleet() {
  const store = await temporaryStore();
  await keepReports(
    store,
    [
      report("V-10", { depot: "North", nextTestDue: "2026-07-10" }),
      report("V-2", { depot: "North", nextTestDue: "2026-06-01", testOverdue: true }),
      report("V-3", { depot: "South", nextTestDue: "2026-08-01" }),
      report("V-4", { depot: "South", nextTestDue: null }),
      report("V-5", {
        depot: "South",
        nextTestDue: "2026-06-30",
        testOverdue: true,
        assessment: { lastTestDate: null },
      }),
      report("V-6", {
        depot: null,
        nextTestDue: "2027-01-01",
        assessment: { inDoubt: [doubt], questions: [doubt.words] },
      }),
      report("V-7", { depot: "North", nextTestDue: "2026-06-02", status: "retired" }),
      report("V-8", { depot: "North", assessment: { questions: ["A repair that nobody recorded?"] } }),
      report("V-9", { depot: "North", nextTestDue: "2026-06-03", status: "stopped" }),
    ],
    { because: "import", at, version: 1 },
  );
  return store;
}

describe("the units of a test round", () => {
  it("are those due up to a day or waiting for a repeat, by depot, soonest first, without those retired", async () => {
    const store = await fleet();
    const round = await roundUnits(store, { depot: null, until: "2026-07-10" });
    expect(round.map(({ unit, overdue }) => [unit, overdue])).toEqual([
      ["V-2", true],
      ["V-9", true],
      ["V-10", false],
      ["V-5", true],
      ["V-6", false],
    ]);
    expect(round[0]?.engineModel).toBe("petrol-4-a");
    const north = await roundUnits(store, { depot: "North", until: "2026-07-09" });
    expect(north.map(({ unit }) => unit)).toEqual(["V-2", "V-9"]);
    expect(await roundUnits(store, { depot: "Nowhere", until: "2030-01-01" })).toEqual([]);
  });

  it("have their reports in the order asked for; one without is left out", async () => {
    const store = await fleet();
    const found = await reportsOf(store, ["V-3", "Z-1", "V-10"]);
    expect(found.map(({ assessment }) => assessment.unit)).toEqual(["V-3", "V-10"]);
  });
});

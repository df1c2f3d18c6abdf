import { describe, expect, it } from "vitest";
import { commitFormImport } from "@/app/_jobs/commit-form-import.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { readNewDepot } from "@/app/_ui/depots/new-depot-form.ts";
import { depotOverviews } from "@/db/depot-overview.ts";
import { act, newStore } from "../jobs/made-up-files.ts";

describe("a depot that a person adds", () => {
  it.each([
    [
      { depot: " North yard ", altitude: "" },
      { ok: true, depot: "North yard", altitudeM: null },
    ],
    [
      { depot: "Pass", altitude: "2 240,5" },
      { ok: true, depot: "Pass", altitudeM: 2240.5 },
    ],
    [
      { depot: "", altitude: "2,240" },
      { ok: false, problems: { depot: expect.any(String), altitude: expect.stringContaining("2240 or as 2.24") } },
    ],
    [
      { depot: "highCOL", altitude: "" },
      { ok: false, problems: { depot: "There is a depot Highcol already." } },
    ],
    [
      { depot: "a\nb", altitude: "99999" },
      { ok: false, problems: { depot: expect.stringContaining("in one line"), altitude: expect.any(String) } },
    ],
    [
      { depot: "x".repeat(201), altitude: "0" },
      { ok: false, problems: { depot: "At most 200 letters." } },
    ],
  ])("%j", (given, read) => expect(readNewDepot(given, ["Highcol"])).toEqual(read));

  it.each([null, 640])("is on the books with an altitude of %j, and goes with its undo", async (altitudeM) => {
    const store = await newStore();
    const { import: id } = await commitFormImport(
      store,
      { title: "Depot Pass", told: { depots: [{ depot: "Pass", altitudeM }] } },
      act,
    );
    expect(await depotOverviews(store)).toMatchObject([{ depot: "Pass", altitudeM, change: null }]);
    await undoImport(store, id, act);
    expect(await depotOverviews(store)).toEqual([]);
  });
});

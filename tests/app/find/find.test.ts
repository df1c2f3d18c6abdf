import { expect, test } from "vitest";
import { findEverything } from "@/app/_ui/find/find.ts";
import { pagesToFind } from "@/app/_ui/shell/places.ts";
import { keepReports } from "@/db/assessments.ts";
import { at, temporaryStore } from "../../db/made-up.ts";
import { report } from "../../db/made-up-report.ts";

async function store() {
  const made = await temporaryStore();
  const reports = [report("Depot 7", { depot: "North & Co" }), report("V-1", { depot: "North & Co" })];
  await keepReports(made, reports, { because: "import", at, version: 0 });
  return made;
}

test("where nothing is asked, the pages are named and nothing else", async () => {
  const [group, ...more] = await findEverything(await store(), "  ", 5);
  expect(more).toEqual([]);
  expect(group?.found).toHaveLength(pagesToFind.length);
});

test("kinds come in one order, those that hold nothing are left out, and every address can be asked for", async () => {
  const groups = await findEverything(await store(), "depot", 5);
  expect(groups.map(({ title }) => title)).toEqual(["Units", "Pages", "Words"]);
  expect(groups[0]?.found).toEqual([
    { title: "Depot 7", detail: "petrol-4-a, North & Co, sound", href: "/units/Depot%207" },
  ]);
  const [units, depots] = await findEverything(await store(), "north", 5);
  expect(units?.found.map(({ title }) => title)).toEqual(["Depot 7", "V-1"]);
  expect(depots).toEqual({
    title: "Depots",
    found: [{ title: "North & Co", detail: "depot", href: "/depots/North%20%26%20Co" }],
  });
});

test("of each kind no more than asked for", async () => {
  for (const { found } of await findEverything(await store(), "t", 1)) expect(found).toHaveLength(1);
});

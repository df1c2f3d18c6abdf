import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type DeviceDraft, newDraft } from "@/app/_ui/test-sheet/device-draft.ts";
import { compressionFacts } from "../../lib/test-entry/made-up.ts";

/** As much of a browser's storage as the sheets are kept by; `isFull`: it takes nothing more. */
const storageOf = (texts: Map<string, string>, { isFull = false } = {}) => ({
  get length() {
    return texts.size;
  },
  key: (i: number) => [...texts.keys()][i] ?? null,
  getItem: (key: string) => texts.get(key) ?? null,
  setItem: (key: string, text: string) => {
    if (isFull) throw new Error("full");
    texts.set(key, text);
  },
  removeItem: (key: string) => texts.delete(key),
});

const kept = new Map<string, string>();
/** The module as a page that was just opened has it. */
async function openPage(more: { readonly isFull?: boolean } = {}) {
  vi.resetModules();
  vi.stubGlobal("localStorage", storageOf(kept, more));
  return import("@/app/_ui/test-sheet/device-store.client.ts");
}

const of = compressionFacts([1150]);
function sheet(n: number, more: Partial<DeviceDraft> = {}): DeviceDraft {
  const facts = {
    unit: "V-1",
    depot: null,
    modelName: "petrol",
    fuel: null,
    layout: "in-line",
    aircraft: false,
    cylinders: 1,
    meter: { value: 1500, unit: "h" },
    tests: [of],
  } as const;
  const id = n.toString(16).padStart(24, "0");
  return { ...newDraft({ id, facts, of, date: "2026-06-20", testedBy: "A. Fitter", pressure: "kPa" }), ...more };
}

beforeEach(() => kept.clear());
afterEach(() => vi.unstubAllGlobals());

it("a sheet is there as it was left when the page is opened again", async () => {
  const page = await openPage();
  page.putDraft(sheet(1));
  page.changeDraft(sheet(1).id, (draft) => ({ ...draft, typing: { ...draft.typing, cylinder: 1, value: "11" } }));
  const again = await openPage();
  expect(again.deviceDraft(sheet(1).id)?.typing).toMatchObject({ cylinder: 1, value: "11" });
  again.removeDraft(sheet(1).id);
  expect((await openPage()).deviceDraft(sheet(1).id)).toBeNull();
});

it("what waits to be sent is what is finished and not sent, in the order in which it was begun", async () => {
  const page = await openPage();
  page.putDraft(sheet(3, { sending: "tried" }));
  page.putDraft(sheet(1));
  page.putDraft(sheet(2, { sending: "waiting" }));
  page.putDraft(sheet(4, { sending: "tried", sent: "sheet-4" }));
  expect((await openPage()).waitingDrafts().map(({ id }) => id)).toEqual([sheet(2).id, sheet(3).id]);
});

it("of sheets that were sent the last five stay; none that was not sent goes", async () => {
  const page = await openPage();
  page.putDraft(sheet(1));
  for (let n = 2; n < 10; n++) page.putDraft(sheet(n, { sending: "tried", sent: `sheet-${n}` }));
  const again = await openPage();
  const there = Array.from({ length: 10 }, (_, n) => n).filter((n) => again.deviceDraft(sheet(n).id) !== null);
  expect(there).toEqual([1, 5, 6, 7, 8, 9]);
});

it("what is no sheet of this version is passed over and left where it is", async () => {
  kept.set("borecast-test-sheet:a", "{");
  kept.set("borecast-test-sheet:b", JSON.stringify({ ...sheet(1), version: 9 }));
  kept.set("other", JSON.stringify(sheet(2)));
  const page = await openPage();
  page.putDraft(sheet(3));
  expect(page.deviceDraft(sheet(1).id)).toBeNull();
  expect(page.deviceDraft(sheet(2).id)).toBeNull();
  expect(kept.size).toBe(4);
});

it("where the browser keeps nothing the page goes on with what it has", async () => {
  const page = await openPage({ isFull: true });
  page.putDraft(sheet(1));
  page.changeDraft(sheet(1).id, (draft) => ({ ...draft, step: "end" }));
  expect(page.deviceDraft(sheet(1).id)?.step).toBe("end");
  expect(kept.size).toBe(0);
});

it("ids are those that the server takes, in the order of time, and never twice", async () => {
  const { newDraftId } = await openPage();
  const now = Date.UTC(2026, 5, 20);
  const ids = Array.from({ length: 500 }, (_, i) => newDraftId(now + i));
  expect(ids.every((id) => /^[0-9a-f]{24}$/.test(id))).toBe(true);
  expect(ids.toSorted()).toEqual(ids);
  expect(new Set([...ids, ...ids.map(() => newDraftId(now))]).size).toBe(1_000);
});

it("a change is made to what the device keeps, also where another page changed it and this one was not told yet", async () => {
  const one = await openPage();
  one.putDraft(sheet(1));
  const other = await openPage();
  expect(other.deviceDraft(sheet(1).id)?.readings).toEqual([]);
  const reading = (cylinder: number) => ({
    cylinder,
    value: 1150,
    firstStroke: null,
    heardAt: [],
    remarks: null,
    asked: [],
  });
  const keep = (cylinder: number) => (draft: DeviceDraft) => ({
    ...draft,
    readings: [...draft.readings, reading(cylinder)],
  });
  one.changeDraft(sheet(1).id, keep(1));
  other.changeDraft(sheet(1).id, keep(2));
  one.changeDraft(sheet(1).id, keep(3));
  expect((await openPage()).deviceDraft(sheet(1).id)?.readings.map(({ cylinder }) => cylinder)).toEqual([1, 2, 3]);
});

it("what another page threw away is not brought back by a change", async () => {
  const one = await openPage();
  one.putDraft(sheet(1));
  const other = await openPage();
  other.putDraft(sheet(2));
  one.removeDraft(sheet(1).id);
  other.changeDraft(sheet(1).id, (draft) => ({ ...draft, step: "end" }));
  expect([...kept.keys()]).toEqual([`borecast-test-sheet:${sheet(2).id}`]);
  expect(other.deviceDraft(sheet(1).id)).toBeNull();
});

it("a sheet that the browser keeps no more goes on from what the page has, not from what was kept before", async () => {
  const page = await openPage();
  page.putDraft(sheet(1));
  vi.stubGlobal("localStorage", storageOf(kept, { isFull: true }));
  page.changeDraft(sheet(1).id, (draft) => ({ ...draft, step: "cylinders" }));
  page.changeDraft(sheet(1).id, (draft) => ({ ...draft, typing: { ...draft.typing, value: "11" } }));
  expect(page.deviceDraft(sheet(1).id)).toMatchObject({ step: "cylinders", typing: { value: "11" } });
  vi.stubGlobal("localStorage", storageOf(kept));
  page.changeDraft(sheet(1).id, (draft) => draft);
  expect((await openPage()).deviceDraft(sheet(1).id)).toMatchObject({ step: "cylinders", typing: { value: "11" } });
});

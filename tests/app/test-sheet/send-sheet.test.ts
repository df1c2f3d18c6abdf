import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { type DeviceDraft, newDraft } from "@/app/_ui/test-sheet/device-draft.ts";
import { deviceDraft, putDraft } from "@/app/_ui/test-sheet/device-store.client.ts";
import { sendSheet } from "@/app/_ui/test-sheet/send-sheet.client.ts";
import { testDraftSchema } from "@/lib/schema/test-draft.ts";
import { compressionFacts } from "../../lib/test-entry/made-up.ts";

const id = "00000000000000000000000a";
const of = compressionFacts([1150]);
const reading = { cylinder: 1, value: 1150, firstStroke: null, heardAt: [], remarks: null, asked: [] };

function waiting(more: Partial<DeviceDraft> = {}): void {
  const facts = {
    ...({ unit: "V-1", depot: null, modelName: "petrol", fuel: null, layout: "in-line", aircraft: false } as const),
    ...({ cylinders: 1, meter: { value: 1500, unit: "h" }, tests: [of] } as const),
  };
  const draft = newDraft({ id, facts, of, date: "2026-06-20", testedBy: "A. Fitter", pressure: "kPa" });
  const fields = { ...draft.fields, meter: "1500" };
  putDraft({ ...draft, fields, readings: [reading], sending: "waiting", ...more });
}

/** What the server answers, in turn; `null`: nothing comes back. Gives what it was asked. */
function server(...answers: (readonly [number, object] | null)[]) {
  const asked: [string, { readonly id: string }][] = [];
  vi.stubGlobal("fetch", async (address: string, { body }: { readonly body: string }) => {
    asked.push([address, JSON.parse(body)]);
    const next = answers.shift() ?? null;
    if (next === null) throw new TypeError("not reached");
    return Response.json(next[1], { status: next[0] });
  });
  return asked;
}

beforeEach(() => {
  const texts = new Map<string, string>();
  vi.stubGlobal("localStorage", {
    get length() {
      return texts.size;
    },
    key: (i: number) => [...texts.keys()][i] ?? null,
    getItem: (key: string) => texts.get(key) ?? null,
    setItem: (key: string, text: string) => texts.set(key, text),
    removeItem: (key: string) => texts.delete(key),
  });
});
afterEach(() => vi.unstubAllGlobals());

it("is sent as the server reads it, and kept as sent", async () => {
  waiting();
  const asked = server([201, { import: "sheet-1" }]);
  await sendSheet(id, ".");
  expect(asked.map(([address]) => address)).toEqual(["/api/test-sheets"]);
  expect(testDraftSchema.parse(asked[0]?.[1])).toMatchObject({ id, meter: 1500 });
  expect(deviceDraft(id)).toMatchObject({ sent: "sheet-1", refusal: null });
  await sendSheet(id, ".");
  expect(asked).toHaveLength(1);
});

it("refused by the answer to its first sending, it can be changed, for nothing of it arrived", async () => {
  waiting();
  const asked = server([422, { error: "The meter ran backwards. Nothing was kept." }]);
  await sendSheet(id, ".");
  expect(asked).toHaveLength(1);
  expect(deviceDraft(id)).toMatchObject({
    sending: "no",
    sentAs: null,
    refusal: "The meter ran backwards. Nothing was kept.",
  });
});

it("without an answer it waits, and is sent again by the same id", async () => {
  waiting();
  const asked = server(null, [503, { error: "busy" }], [200, { import: "sheet-1" }]);
  for (const sending of ["tried", "tried"]) {
    await sendSheet(id, ".");
    expect(deviceDraft(id)).toMatchObject({ sending, sent: null });
  }
  await sendSheet(id, ".");
  expect(new Set(asked.map(([, body]) => body.id))).toEqual(new Set([id]));
  expect(deviceDraft(id)?.sent).toBe("sheet-1");
});

it("refused after a sending without an answer, it is asked for first: had that arrived, nothing is lost in a change", async () => {
  waiting();
  const asked = server(null, [400, { error: "Say who does it." }], [200, { import: "sheet-1" }]);
  await sendSheet(id, ".");
  await sendSheet(id, ".");
  expect(asked.at(-1)).toEqual(["/api/test-sheets/reopened", { id }]);
  expect(deviceDraft(id)).toMatchObject({ sent: "sheet-1", refusal: null });
});

it("once the server takes no sending of its id any more, it can be changed, and goes by another", async () => {
  waiting();
  const asked = server(null, [422, { error: "No unit V-1." }], [200, { import: null }], [201, { import: "sheet-2" }]);
  await sendSheet(id, ".");
  await sendSheet(id, ".");
  const again = deviceDraft(id)!;
  expect(again).toMatchObject({ sending: "no", refusal: "No unit V-1." });
  expect(again.sentAs).not.toBe(id);
  putDraft({ ...again, sending: "waiting", refusal: null });
  await sendSheet(id, ".");
  expect(asked.at(-1)?.[1].id).toBe(again.sentAs);
  expect(testDraftSchema.parse(asked.at(-1)?.[1]).id).toBe(again.sentAs);
  expect(deviceDraft(id)?.sent).toBe("sheet-2");
});

it("as long as nobody can say whether it arrived, it stays as it was sent", async () => {
  waiting({ sending: "tried" });
  for (const [answer, asking] of [
    [[422, { error: "no" }], null],
    [
      [422, { error: "no" }],
      [400, { error: "Say who does it." }],
    ],
  ] as const) {
    server(answer, asking);
    await sendSheet(id, ".");
    expect(deviceDraft(id)).toMatchObject({ sending: "tried", sent: null, refusal: null });
  }
});

it("one that cannot be sent as it is, is asked for as well where it was tried", async () => {
  waiting({ sending: "tried", readings: [] });
  const asked = server([200, { import: null }]);
  await sendSheet(id, ".");
  expect(asked.map(([address]) => address)).toEqual(["/api/test-sheets/reopened"]);
  expect(deviceDraft(id)).toMatchObject({ sending: "no", refusal: "No cylinder is measured yet." });
});

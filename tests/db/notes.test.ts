import { expect, it } from "vitest";
import { recentActivity } from "@/db/activity.ts";
import { addNote, notesOf, setNoteWithdrawn } from "@/db/notes.ts";
import { at, by, temporaryStore } from "./made-up.ts";

const later = "2026-07-01T08:00:00.000Z";

it("notes of a unit are told by the day that they are about, the latest first", async () => {
  const store = await temporaryStore();
  await addNote(store, "V-1", { text: "Oil on the floor", date: "2026-06-01" }, { by, at });
  await addNote(store, "V-1", { text: "Smokes when cold", date: "2026-06-20" }, { by, at });
  await addNote(store, "V-1", { text: "Written down late", date: "2026-05-02" }, { by, at: later });
  await addNote(store, "V-2", { text: "Of another unit", date: "2026-06-25" }, { by, at });
  expect((await notesOf(store, "V-1")).map(({ text, by: who, at: when }) => [text, who, when])).toEqual([
    ["Smokes when cold", by, at],
    ["Oil on the floor", by, at],
    ["Written down late", by, later],
  ]);
});

it("a note is withdrawn and put back, never deleted; who did it is recorded", async () => {
  const store = await temporaryStore();
  const id = await addNote(store, "V-1", { text: "Oil on the floor", date: "2026-06-01" }, { by, at });
  const set = (withdrawn: boolean) => setNoteWithdrawn(store, { id, withdrawn }, { by: "B. Clerk", at: later });
  expect(await set(false)).toBe(false);
  expect(await set(true)).toBe(true);
  expect(await notesOf(store, "V-1")).toMatchObject([
    { text: "Oil on the floor", by, withdrawnAt: later, withdrawnBy: "B. Clerk" },
  ]);
  expect(await set(true)).toBe(false);
  expect(await set(false)).toBe(true);
  expect(await notesOf(store, "V-1")).toMatchObject([{ withdrawnAt: null, withdrawnBy: null }]);
  expect(await setNoteWithdrawn(store, { id: id + 99, withdrawn: true }, { by, at })).toBe(false);
  const told = await recentActivity(store, { limit: 9, about: "V-1" });
  expect(told.map((row) => [row.action, row.by, row.detail])).toEqual([
    ["note-restored", "B. Clerk", { note: id }],
    ["note-withdrawn", "B. Clerk", { note: id }],
    ["note-added", by, { note: id }],
  ]);
});

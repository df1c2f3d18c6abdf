import { expect, test } from "vitest";
import { noteSchema } from "@/lib/schema/note.ts";

const schema = noteSchema("2026-06-30");
const problems = (note: unknown) => {
  const parsed = schema.safeParse(note);
  return parsed.success ? [] : parsed.error.issues.map(({ path, message }) => [path.join("."), message]);
};
const note = { text: "Smokes when cold", date: "2026-06-30" };

test("a note is trimmed, and its lines end alike whatever the browser sends", () => {
  expect(schema.parse({ ...note, text: "  Smokes\r\nwhen cold \n" })).toEqual({ ...note, text: "Smokes\nwhen cold" });
});

test("it has something in it, and up to 2,000 characters", () => {
  expect(problems({ ...note, text: " \r\n " })).toEqual([["text", "Write what was seen or agreed."]]);
  expect(problems({ ...note, text: "x".repeat(2000) })).toEqual([]);
  // As the browser counts them: a line's end is one.
  expect(problems({ ...note, text: "x\r\n".repeat(1000) })).toEqual([]);
  expect(problems({ ...note, text: "x".repeat(2001) })).toEqual([["text", "A note may have up to 2,000 characters."]]);
});

test("its day is a date that is not ahead", () => {
  expect(problems({ ...note, date: "2026-07-01" })).toEqual([["date", "The day lies in the future."]]);
  expect(problems({ ...note, date: "30.6.2026" })).toEqual([["date", "Give the day as year, month and day."]]);
});

import { expect, it } from "vitest";
import { sinceWords } from "@/app/_ui/plan/since-words.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);

it("tells that prices have changed beside a booking that somebody moved", () => {
  const both = sinceWords(f, { changed: 1, isBehind: true, isChosenSince: true }).join(" ");
  expect(both).toContain("Facts, prices or settings have changed since.");
  expect(both).toContain("One unit stands otherwise");
});

it("tells of a pin that was taken back, though no booking stands otherwise", () => {
  expect(sinceWords(f, { changed: 0, isBehind: false, isChosenSince: true })).toHaveLength(1);
  expect(sinceWords(f, { changed: 0, isBehind: false, isChosenSince: false })).toEqual([]);
});

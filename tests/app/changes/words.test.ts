import { describe, expect, it } from "vitest";
import { changesFinding } from "@/app/_ui/changes/finding.ts";
import { moveWords } from "@/app/_ui/changes/move-words.ts";
import { sinceNote, sinceWords } from "@/app/_ui/changes/since-words.ts";
import { windowMove } from "@/lib/changes/window-move.ts";
import type { WindowDates } from "@/lib/schema/report.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { readPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(readPreferences(undefined));
const frame = { asOf: "2026-06-30", horizonEnd: "2031-06-30" };
const projected = (p10: string, p50: string | null = null, p90: string | null = null): WindowDates => ({
  status: "projected",
  p10,
  p50,
  p90,
});
const none: WindowDates = { status: "not-foreseen", p10: null, p50: null, p90: null };
const tooFew: WindowDates = { ...none, status: "too-few-tests" };
const crossed: WindowDates = { status: "crossed", p10: "2026-06-30", p50: "2026-06-30", p90: "2026-06-30" };

describe("a window that moved", () => {
  it.each([
    [projected("2027-01-01", "2028-03-01"), projected("2027-01-01", "2027-11-01"), "likely Nov 2027, was Mar 2028"],
    [
      projected("2027-01-01", "2028-03-01", "2029-01-01"),
      projected("2026-09-01", "2027-11-01", "2028-09-01"),
      "likely Nov 2027, was Mar 2028; early Sep 2026, was Jan 2027; late Sep 2028, was Jan 2029",
    ],
    [projected("2028-03-01"), projected("2028-06-01", null), "early Jun 2028, was Mar 2028"],
    [projected("2027-01-01", "2030-03-01"), projected("2027-01-01", null), "likely after Jun 2031, was Mar 2030"],
    [none, projected("2027-01-01", "2028-03-01"), "likely Mar 2028, was not foreseen"],
    [tooFew, projected("2027-01-01", "2028-03-01"), "likely Mar 2028, was without enough tests"],
    [projected("2027-01-01", "2028-03-01"), none, "not foreseen, was likely Mar 2028"],
    [projected("2027-01-01", "2028-03-01"), crossed, "limit crossed, was likely Mar 2028"],
    [none, crossed, "limit crossed"],
    [crossed, projected("2027-01-01", "2028-03-01"), "limit no longer crossed: likely Mar 2028"],
    [crossed, tooFew, "limit no longer crossed: without enough tests"],
    // Two dates within one month are told by day.
    [
      projected("2027-02-01", "2027-03-02", "2027-05-01"),
      projected("2027-02-01", "2027-03-21", "2027-05-01"),
      "likely 21 Mar 2027, was 2 Mar 2027",
    ],
  ])("from %o to %o", (from, to, expected) => {
    const move = windowMove(from, to, frame);
    if (move === null) throw new Error("no move");
    expect(moveWords("top-end", move, { ...frame, f })).toBe(`top-end ${expected}`);
  });
});

describe("the finding", () => {
  const counts = { told: 0, worse: 0, better: 0, band: 0, window: 0, question: 0, fleet: 0, test: 0 };
  const find = (more: Partial<typeof counts>, units = 40) =>
    changesFinding({ ...counts, ...more }, { units, depot: null, since: "3 Aug 2026", f });

  it("counts what changed, and which way", () => {
    expect(find({})).toBe("Nothing changed since 3 Aug 2026.");
    expect(find({ told: 7, worse: 3, better: 2, fleet: 1 })).toBe(
      "7 of 40 units changed since 3 Aug 2026: 3 got worse, 2 got better and 1 came or left.",
    );
    expect(find({ told: 1, question: 1 }, 1)).toBe("1 of 1 unit changed since 3 Aug 2026.");
  });
});

describe("since when", () => {
  const settings = { timeZone: "Europe/Berlin" };
  const at = "2026-08-03T12:05:00.000Z";
  const since = { at, date: "2026-08-03", by: "date", fromBeginning: false } as const;

  it("is a date, and whose last visit that was", () => {
    expect(sinceWords(since, f)).toBe("3 Aug 2026");
    expect(sinceWords({ ...since, by: "last-visit" }, f)).toBe("your last visit on 3 Aug 2026");
    expect(sinceWords({ ...since, by: "last-visit", fromBeginning: true }, f)).toBe("3 Aug 2026");
  });

  it("says why no further back, and how several reasons are meant", () => {
    const note = (
      more: Partial<Omit<typeof since, "by" | "fromBeginning">> & {
        by?: "usual" | "last-visit";
        fromBeginning?: boolean;
      },
    ) => sinceNote({ ...since, ...more }, { rows: false, settings, f });
    expect(note({})).toBe("");
    expect(note({ by: "last-visit" })).toBe("Your last visit ended on 3 Aug 2026, 14:05.");
    expect(note({ by: "usual" })).toMatch(/^No earlier visit .* last 30 days/);
    expect(note({ by: "usual", fromBeginning: true })).toMatch(/^The first forecasts were issued on 3 Aug 2026, 14:05/);
    expect(sinceNote(since, { rows: true, settings, f })).toMatch(/^Where several reasons are named/);
  });
});

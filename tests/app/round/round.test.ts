import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainRoundView, reaches, readRoundAddress, roundAddress, roundFileAddress } from "@/app/_ui/round/address.ts";
import { roundFileHead, roundFileLine } from "@/app/_ui/round/round-file.ts";
import { hoursNote, hoursWords, reasonWords, roundFinding } from "@/app/_ui/round/round-words.ts";
import { readTicks, tickOf, withTick } from "@/app/_ui/round/ticks.ts";
import type { RoundEntry } from "@/lib/round/round-entry.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const plain = (text: string) => text.replaceAll("\u00a0", " ");

describe("the address of a round", () => {
  it("is read back as it was written, and what is as usual is left out", () => {
    expect(roundAddress()).toBe("/round");
    const view = fc.record({
      depot: fc.option(
        fc
          .string({ minLength: 1, maxLength: 20 })
          .map((s) => s.trim())
          .filter((s) => s !== ""),
        { nil: null },
      ),
      days: fc.constantFrom(...reaches),
      page: fc.integer({ min: 1, max: 90 }),
    });
    fc.assert(
      fc.property(view, (asked) => {
        const parts = Object.fromEntries(new URL(`http://h${roundAddress(asked)}`).searchParams);
        expect(readRoundAddress(parts)).toEqual(asked);
      }),
    );
  });

  it("means the usual where it cannot be understood", () => {
    expect(readRoundAddress({ days: "12", page: "-3", depot: " " })).toEqual(plainRoundView);
    expect(readRoundAddress({ days: ["0", "28"], page: "1e99" })).toEqual({ ...plainRoundView, days: 0 });
  });

  it("of its file has every page", () =>
    expect(roundFileAddress({ depot: "North & Co", days: 0, page: 3 })).toBe("/round.csv?depot=North+%26+Co&days=0"));
});

describe("what a round says", () => {
  const round = { units: 12, overdue: 4, hours: 19.4, depot: "Midfell", until: "2026-09-28", days: 28 };
  it("how many units, by when, and what they take", () => {
    expect(plain(roundFinding(round, f))).toBe(
      "12 units of Midfell are due for a test by 28 Sep 2026, 4 of them are overdue or never tested. The round takes about 19 h of a technician’s time.",
    );
    expect(plain(roundFinding({ ...round, units: 1, overdue: 1, days: 0, depot: null, hours: 1.3 }, f))).toBe(
      "1 unit is due for a test now. The round takes about 1.25 h of a technician’s time.",
    );
    expect(roundFinding({ ...round, units: 0 }, f)).toBe("No unit of Midfell is due for a test by 28 Sep 2026.");
  });

  it("hours to a quarter where they are few", () =>
    expect([0, 0.75, 1.5, 2.1, 9.99, 10.4].map((h) => plain(hoursWords(h, f)))).toEqual([
      "0 h",
      "0.75 h",
      "1.5 h",
      "2 h",
      "10 h",
      "10 h",
    ]));

  it("what the hours are made of, and how many days that is", () => {
    const times = { testReadyHours: 0.75, testCylinderMinutes: 10 };
    expect(plain(hoursNote(times, 2.46, f))).toBe(
      "0.75 h to get an engine ready, and 10 min for each cylinder and kind of test. With the technicians here, 2.5 working days.",
    );
    expect(plain(hoursNote({ ...times, testCylinderMinutes: 7.5 }, null, f))).toMatch(/7\.5 min for each .*test\.$/);
  });

  it("why each unit is on it, in the viewer's formats", () => {
    const say = (reason: Parameters<typeof reasonWords>[0]) => plain(reasonWords(reason, f, "h"));
    expect(say({ kind: "first", never: true })).toBe("Never tested: a first test as the baseline.");
    expect(say({ kind: "first", never: false })).toBe("No test so far can be used: a new baseline.");
    expect(say({ kind: "interval", on: "2026-07-20", meter: 1100 })).toBe("Due at 1,100 h, about 20 Jul 2026.");
    expect(say({ kind: "interval", on: "2026-07-20", meter: null })).toBe("Due by the calendar, 20 Jul 2026.");
    expect(say({ kind: "sooner", on: "2026-07-20" })).toContain("before its interval ends: 20 Jul 2026.");
    expect(say({ kind: "question", words: "Last leak-down test, cylinder 2: too good?" })).toBe(
      "Repeat: Last leak-down test, cylinder 2: too good.",
    );
  });
});

const entry: RoundEntry = {
  unit: "=V-1",
  depot: null,
  modelName: "Four",
  cylinders: 2,
  status: "in-service",
  band: "watch",
  lastTestDate: "2026-03-01",
  due: "2026-07-20",
  overdue: false,
  reasons: [
    { kind: "interval", on: "2026-07-20", meter: 1100.4 },
    { kind: "question", words: "Last test, doubtful" },
  ],
  meter: 1000.2,
  meterUnit: "h",
  tests: ["leak-down"],
  last: [
    {
      measure: "leak-down",
      date: "2026-03-01",
      meter: 600,
      instrument: null,
      entered: [2, 1].map((cylinder) => ({
        cylinder,
        value: 70 + cylinder,
        valueUnit: "psi" as const,
        supply: 80,
        referred: 9,
        weight: 1,
        heardAt: [],
        order: null,
        remarks: null,
      })),
    },
  ],
  hours: 1.0833,
};

it("a line of its file tells each figure under its own head", () => {
  const line = roundFileLine(entry);
  expect(line).toHaveLength(roundFileHead.length);
  expect(Object.fromEntries(roundFileHead.map((head, i) => [head, line[i]]))).toMatchObject({
    unit: "=V-1",
    due: "2026-07-20",
    overdue: "no",
    why: "interval question",
    due_at_meter: 1100,
    asked: "Last test, doubtful",
    meter: 1000,
    leak_down_date: "2026-03-01",
    leak_down_last: "1: 71; 2: 72",
    leak_down_unit: "psi",
    leak_down_supply: "80",
    compression_dry_last: null,
    hours: 1.08,
  });
});

describe("ticks", () => {
  it("stand for a unit until it is tested again", () => {
    expect(tickOf(entry)).not.toBe(tickOf({ ...entry, lastTestDate: "2026-07-01" }));
    expect(tickOf({ unit: "a", lastTestDate: null })).not.toBe(tickOf({ unit: 'a",null', lastTestDate: null }));
  });

  it("are set once and taken away, and the oldest go where there are too many", () => {
    const two = withTick(withTick(withTick([], "a", true), "b", true), "a", true);
    expect(two).toEqual(["b", "a"]);
    expect(withTick(two, "b", false)).toEqual(["a"]);
    const many = Array.from({ length: 2_000 }, (_, i) => String(i)).reduce<readonly string[]>(
      (ticks, tick) => withTick(ticks, tick, true),
      [],
    );
    expect(withTick(many, "new", true)).toEqual([...many.slice(1), "new"]);
  });

  it("are none where the device keeps something else", () => {
    expect(readTicks('["a"]')).toEqual(["a"]);
    for (const text of [undefined, "", "{", '{"a":1}', "[1]", "null"]) expect(readTicks(text)).toEqual([]);
  });
});

import { expect, it } from "vitest";
import { photosOfMark } from "@/app/_ui/recording/repair-photos.tsx";
import { historySteps } from "@/app/_ui/recording/test-words.ts";
import { toldSteps } from "@/app/_ui/recording/told-steps.ts";
import type { PhotoRow } from "@/db/photos.ts";
import { type TestEvent, type ToldTest, testHistoryKey } from "@/db/test-history.ts";
import type { TestLine } from "@/lib/schema/report.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { readPreferences } from "@/lib/viewing/preferences.ts";
import { reading, testFact } from "../../lib/sealing/facts.ts";

const f = formatsOf(readPreferences(undefined));
const common = { by: "R. Ames", at: "2026-08-30T10:00:00.000Z", undoneBy: null, undoneAt: null };
type ToldEvent = Extract<TestEvent, { kind: "told" }>;
const told = (
  rank: number,
  values: readonly number[],
  {
    meter = 1000,
    test = {},
    ...more
  }: Partial<Omit<ToldEvent, "test">> & {
    readonly meter?: number;
    readonly test?: Partial<ToldTest>;
  } = {},
) =>
  ({
    ...common,
    kind: "told",
    importId: `i${rank}`,
    rank,
    from: "tests.csv",
    takeChanges: true,
    whole: false,
    test: { ...testFact({ meter, readings: values.map((value, i) => reading({ cylinder: i + 1, value })) }), ...test },
    ...more,
  }) satisfies TestEvent;
const judged = (rank: number, more: Partial<Extract<TestEvent, { kind: "judged" }>> = {}) =>
  ({
    ...common,
    kind: "judged",
    importId: `i${rank}`,
    rank,
    from: "judgements.csv",
    cylinder: null,
    verdict: "set-aside",
    reason: "hose leaked",
    judgedBy: "R. Ames",
    toldAs: null,
    ...more,
  }) satisfies TestEvent;
const whats = (events: readonly TestEvent[]) => historySteps(events, f).map(({ what, why }) => [what, why]);

it("tells each correction with the old and the new value, and the reason out of its title", () => {
  const events = [
    told(1, [7, 28.5]),
    told(2, [7, 18.5], { from: "V-1: leak-down of 2026-01-01 corrected: read from the wrong scale", meter: 1010 }),
    told(3, [7, 18.5, 9], { from: "late.csv", meter: 1010 }),
  ];
  expect(whats(events)).toEqual([
    ["entered from tests.csv", null],
    ["corrected: meter: 1,000 to 1,010; cylinder 2: 28.5 % to 18.5 %", "read from the wrong scale"],
    ["corrected: cylinder 3: not measured to 9 %", "from late.csv"],
  ]);
});

it("a file that told the same is no step; what was declined or undone changes nothing that follows", () => {
  const undone = { undoneBy: "B. Clerk", undoneAt: "2026-08-31T10:00:00.000Z" };
  const events = [
    told(1, [7]),
    told(2, [7]),
    told(3, [50], { takeChanges: false }),
    told(4, [60], undone),
    told(5, [8]),
  ];
  expect(whats(events)).toEqual([
    ["entered from tests.csv", null],
    ["corrected: cylinder 1: 7 % to 50 % (told otherwise, and not taken)", "from tests.csv"],
    ["corrected: cylinder 1: 7 % to 60 %", "from tests.csv"],
    ["corrected: cylinder 1: 7 % to 8 %", "from tests.csv"],
  ]);
  expect(historySteps(events, f)[2]?.undone).toEqual({ by: "B. Clerk", at: undone.undoneAt });
});

it("tells every cell that was corrected, also one that became blank, and each once", () => {
  const first = testFact({
    test: "compression-dry",
    warm: true,
    readings: [
      reading({ value: 90, valueUnit: "psi", firstStroke: 60 }),
      reading({ cylinder: 2, value: 92, valueUnit: "psi" }),
    ],
  });
  const unit = told(2, [], { test: { ...first, warm: null, readings: [reading({ value: 90, valueUnit: "bar" })] } });
  const blank = told(3, [], { whole: true, test: { ...first, date: "2025-01-10", warm: null, readings: [] } });
  const again = told(4, [], { test: { ...first, date: "2025-02-10", instrument: "G-2" } });
  expect(whats([told(1, [], { test: first }), unit, blank, again]).slice(1)).toEqual([
    ["corrected: cylinder 1: 90 psi to 90 bar; cylinder 1, first stroke: 60 psi to not recorded", "from tests.csv"],
    ["corrected: warm: yes to not recorded", "from tests.csv"],
    [
      "corrected: date: 10 Jan 2025 to 10 Feb 2025; tester: not recorded to G-2; warm: not recorded to yes; " +
        "cylinder 1: 90 bar to 90 psi; cylinder 1, first stroke: not recorded to 60 psi",
      "from tests.csv",
    ],
  ]);
});

it("tells what a person made of it, of whom the file says so, and what was taken back", () => {
  const events = [
    told(1, [7]),
    judged(2, { judgedBy: "W. Lead" }),
    judged(3, { cylinder: 2, verdict: "accepted", reason: "measured again" }),
    judged(4, { verdict: "none", reason: "slip" }),
  ];
  expect(whats(events).slice(1)).toEqual([
    ["the test set aside, judged by W. Lead", "hose leaked"],
    ["cylinder 2 accepted", "measured again"],
    ["the test no longer set aside", "slip"],
  ]);
});

it("a row of the table of tests tells what was done since it was entered", () => {
  const test = { unit: "V-1", date: "2026-01-01", measure: "leak-down", attempt: 1, instrument: null } as const;
  const key = testHistoryKey({ ...test, test: test.measure });
  const steps = toldSteps(new Map([[key, [told(1, [7]), judged(2)]]]), f, "UTC");
  const says = (line: object) => steps(line as TestLine).map((step) => step.says);
  expect(says(test)).toEqual(["The test set aside, by R. Ames, 30 Aug 2026, 10:00: hose leaked"]);
  expect(says({ ...test, attempt: 2 })).toEqual([]);
});

it("a photo stands with its repair, be that told as of all cylinders or by their numbers", () => {
  const photo = (more: Partial<PhotoRow>): PhotoRow => ({
    id: 1,
    unit: "V-1",
    date: "2026-01-01",
    scope: "top-end",
    cylinders: "all",
    name: "a.jpg",
    type: "image/jpeg",
    size: 1,
    by: "R. Ames",
    at: common.at,
    ...more,
  });
  const mark = { unit: "V-1", date: "2026-01-01", scope: "top-end", cylinders: [1, 2, 3, 4] } as const;
  const ids = (...photos: PhotoRow[]) => photosOfMark(photos, mark, 4).map(({ id }) => id);
  expect(ids(photo({}), photo({ id: 2, cylinders: [1, 2, 3, 4] }), photo({ id: 3, cylinders: [1] }))).toEqual([1, 2]);
  expect(ids(photo({ unit: "V-2" }), photo({ date: "2026-01-02" }), photo({ scope: "complete" }))).toEqual([]);
});

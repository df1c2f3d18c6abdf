import { describe, expect, it } from "vitest";
import { meterMeant } from "@/lib/intake/meter-proposals.ts";
import type { RowIssue } from "@/lib/schema/intake.ts";
import { assembled, csvOf, goodRow } from "./read-text.ts";

type Row = Readonly<Record<string, string>>;
const issueOf = (issues: readonly RowIssue[], code: string) => issues.filter((issue) => issue.code === code);

/** A unit's tests on all four cylinders, one for each row given. */
const testsOf = (rows: readonly Row[], values: readonly number[] = [8, 9, 10.5, 12]) =>
  csvOf(
    rows.flatMap((row) => values.map((value, i) => ({ ...goodRow, cylinder: `${i + 1}`, value: `${value}`, ...row }))),
  );
const steady: readonly Row[] = [
  { test_date: "2025-01-10", meter: "41000" },
  { test_date: "2025-04-10", meter: "43100" },
  { test_date: "2025-07-10", meter: "45000" },
];

describe("a meter that runs backwards", () => {
  it("is offered with two digits changed where one figure alone fits", async () => {
    const { issues } = await assembled(
      testsOf([...steady, { test_date: "2025-09-10", meter: "46250" }, { test_date: "2025-08-10", meter: "42570" }]),
    );
    const refused = issueOf(issues, "meter-backwards");
    expect(refused).toHaveLength(4);
    // 45270 fits between 45000 and 46250; 24570, 45270, 42750, 42507 do not all.
    expect(refused[0]?.proposals).toEqual([
      {
        kind: "meter-digits",
        words: "Read the meter as 45,270 km",
        cells: [18, 19, 20, 21].map((line) => ({ line, column: "meter", was: "42570", value: "45270" })),
      },
    ]);
  });

  it("is offered as miles where that fits", async () => {
    const { issues } = await assembled(testsOf([...steady, { test_date: "2025-09-10", meter: "28900" }]));
    expect(issueOf(issues, "meter-backwards")[0]?.proposals).toMatchObject([
      { kind: "meter-unit", words: "Read the meter as mi: 46,510 km" },
    ]);
  });

  it("is offered as a new meter where no figure is sure", async () => {
    const { issues } = await assembled(testsOf([...steady, { test_date: "2025-09-10", meter: "120" }]));
    expect(issueOf(issues, "meter-backwards")[0]?.proposals).toEqual([
      {
        kind: "meter-reset",
        words: "The meter was replaced by 2025-09-10; wear goes on",
        cells: [],
        reset: { unit: "V-1", date: "2025-09-10", meter: 120 },
      },
    ]);
  });

  it("in a list of readings is offered as a new meter in its own row", async () => {
    const meters = csvOf([{ unit: "V-1", reading_date: "2025-09-10", meter: "35", meter_reset: "" }]);
    const { issues } = await assembled(testsOf(steady), meters);
    expect(issueOf(issues, "meter-backwards")[0]?.proposals?.[0]).toMatchObject({
      kind: "meter-reset",
      cells: expect.arrayContaining([{ line: 2, column: "meter_reset", was: "", value: "yes" }]),
    });
  });

  const gap = {
    reading: { date: "2025-09-10", meter: 4650 },
    last: { date: "2025-07-10", meter: 45_000 },
    first: { date: "2025-01-10", meter: 41_000 },
    next: null,
    unit: "km",
  } as const;
  it("gets no figure that would be a guess", () => {
    expect(meterMeant({ ...gap, first: gap.last })).toEqual([]);
    expect(meterMeant(gap)).toEqual([]);
    // 4560 h to 4650 h: both 4650 and 5460 … only what fits below the next reading is offered.
    expect(
      meterMeant({
        ...gap,
        unit: "h",
        last: { date: "2025-07-10", meter: 4600 },
        reading: { ...gap.reading, meter: 4465 },
        next: { date: "2025-10-01", meter: 4650 },
      }),
    ).toEqual([{ kind: "meter-digits", meter: 4645 }]);
  });
});

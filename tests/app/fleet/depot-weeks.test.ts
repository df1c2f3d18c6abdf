import { describe, expect, test } from "vitest";
import { depotWeeks, dueWhileClosed, placeOf, weekWords } from "../../../app/_ui/fleet/depot-weeks.ts";
import { timeSpan } from "../../../app/_ui/time-span.ts";
import type { DepotPeriod } from "../../../lib/schema/depot.ts";
import { formatsOf } from "../../../lib/viewing/formats.ts";
import { plainPreferences } from "../../../lib/viewing/preferences.ts";

const once = (depot: string, kind: DepotPeriod["kind"], firstDate: string, lastDate: string) =>
  ({ depot, kind, repeat: "once", firstDate, lastDate, remarks: null }) as const;
const yearly = (depot: string, kind: DepotPeriod["kind"], firstWeek: number, lastWeek: number) =>
  ({ depot, kind, repeat: "yearly", firstWeek, lastWeek, remarks: null }) as const;

const span = timeSpan("2026-08-31", 3);

describe("the weeks of depots on the axis", () => {
  test("yearly weeks come once a year, and only of the depots on the page", () => {
    const periods = [yearly("Highcol", "closed", 52, 1), once("Lowmarsh", "peak", "2027-06-01", "2027-08-31")];
    const weeks = depotWeeks(periods, ["Highcol", null, "Highcol", "Midfell"], span);
    expect([...weeks.keys()]).toEqual(["Highcol"]);
    expect(weeks.get("Highcol")?.spans.map(({ from }) => from.slice(0, 4))).toEqual(["2026", "2027", "2028"]);
  });

  test("each depot has a drawing of its own", () => {
    const periods = [yearly("Highcol", "closed", 52, 1), yearly("Lowmarsh", "peak", 22, 35)];
    const ids = [...depotWeeks(periods, ["Highcol", "Lowmarsh"], span).values()].map(({ id }) => id);
    expect(new Set(ids).size).toBe(2);
  });

  test("what lies before today or beyond the axis is cut or left out", () => {
    const periods = [
      once("Highcol", "peak", "2026-08-01", "2026-09-06"),
      once("Highcol", "closed", "2031-01-01", "2031-02-01"),
    ];
    const spans = depotWeeks(periods, ["Highcol"], span).get("Highcol")?.spans ?? [];
    expect(spans.map(({ kind, from, to }) => [kind, from, to])).toEqual([["peak", "2026-08-31", "2026-09-06"]]);
    expect(placeOf(spans[0]!, span).start).toBe(0);
  });

  test("in words they tell their days, or their end where they have begun", () => {
    const f = formatsOf(plainPreferences);
    const week = { kind: "peak", remarks: null, from: "2026-08-31", to: "2026-09-06" } as const;
    expect(weekWords(week, span, f)).toBe("peak weeks until 6 Sep 2026");
    expect(weekWords({ ...week, kind: "closed", from: "2026-09-01" }, span, f)).toBe("closed 1 Sep 2026 to 6 Sep 2026");
  });

  test("the last day is drawn as well", () => {
    const year = timeSpan("2026-01-01", 1);
    const day = { kind: "closed", remarks: null, from: "2026-01-02", to: "2026-01-02" } as const;
    expect(placeOf(day, year).start).toBeCloseTo(100 / 365, 9);
    expect(placeOf(day, year).width).toBeCloseTo(100 / 365, 9);
    const end = placeOf({ ...day, from: "2026-12-31", to: "2027-01-01" }, year);
    expect(end.start + end.width).toBeCloseTo(100, 9);
  });
});

describe("repairs due while the depot is closed", () => {
  const periods = [
    yearly("Highcol", "closed", 52, 1),
    once("Lowmarsh", "closed", "2026-10-05", "2026-10-11"),
    once("Midfell", "peak", "2026-10-05", "2026-10-11"),
  ];

  test("counts both ends of the weeks, and closed weeks alone", () => {
    const due = ["2026-10-04", "2026-10-05", "2026-10-11", "2026-10-12"];
    expect(
      dueWhileClosed(
        due.map((dueDate) => ({ depot: "Lowmarsh", dueDate })),
        periods,
      ),
    ).toEqual([{ depot: "Lowmarsh", units: 2 }]);
    expect(dueWhileClosed([{ depot: "Midfell", dueDate: "2026-10-06" }], periods)).toEqual([]);
  });

  test("the depot with the most comes first", () => {
    const due = [
      { depot: "Lowmarsh", dueDate: "2026-10-06" },
      { depot: "Highcol", dueDate: "2026-12-28" },
      { depot: "Highcol", dueDate: "2027-01-02" },
      { depot: "Elsewhere", dueDate: "2026-12-28" },
    ];
    expect(dueWhileClosed(due, periods)).toEqual([
      { depot: "Highcol", units: 2 },
      { depot: "Lowmarsh", units: 1 },
    ]);
  });
});

import { describe, expect, test } from "vitest";
import { timeSpan } from "../../app/_ui/time-span.ts";
import { likelyWords, soldAt, windowDrawing, windowInWords, windowLines } from "../../app/_ui/window-drawing.ts";
import type { WindowDates } from "../../lib/schema/report.ts";
import { formatsOf } from "../../lib/viewing/formats.ts";
import { plainPreferences } from "../../lib/viewing/preferences.ts";

const span = timeSpan("2026-08-31", 3);
const end = "2031-08-31";
const f = formatsOf(plainPreferences);
const dates = (status: WindowDates["status"], p10: string | null, p50: string | null, p90: string | null) => ({
  status,
  p10,
  p50,
  p90,
});
const none = dates("not-foreseen", null, null, null);
const tooFew = dates("too-few-tests", null, null, null);
const crossed = dates("crossed", "2026-08-31", "2026-08-31", "2026-08-31");
const closed = dates("projected", "2026-09-28", "2026-11-09", "2027-02-15");
const open = dates("projected", "2029-01-20", null, null);
const later = dates("projected", "2030-10-20", null, null);

describe("what is drawn of a forecast", () => {
  test("a window from early to late with its tick", () => {
    const drawing = windowDrawing(closed, span);
    expect(drawing).toMatchObject({ kind: "window", modelOnly: false });
    if (drawing.kind !== "window") return;
    expect(drawing.early).toBeCloseTo((100 * 28) / 1096, 9);
    expect(drawing.likely).toBeCloseTo((100 * 70) / 1096, 9);
    expect(drawing.late).toBeCloseTo((100 * 168) / 1096, 9);
  });

  test("no late end and no tick where they lie beyond the axis, though their dates are known", () => {
    const long = dates("projected", "2028-08-31", "2029-09-01", "2031-01-01");
    expect(windowDrawing(long, span)).toMatchObject({ kind: "window", likely: null, late: null });
    expect(windowDrawing(long, timeSpan("2026-08-31", 5))).not.toMatchObject({ late: null });
  });

  test("only a sign that it goes on where even the early end lies beyond the axis", () =>
    expect(windowDrawing(later, span)).toEqual({ kind: "beyond" }));

  test("the past mark where the limit is crossed, nothing where nothing is foreseen", () => {
    expect(windowDrawing(crossed, span)).toEqual({ kind: "crossed" });
    expect(windowDrawing(none, span)).toEqual({ kind: "none" });
    expect(windowDrawing(tooFew, span)).toEqual({ kind: "none" });
  });

  test("a range that an engine without tests of its own has from its model is told apart", () =>
    expect(windowDrawing({ ...closed, status: "too-few-tests" }, span)).toMatchObject({ modelOnly: true }));

  test("an early end before today is drawn from today", () =>
    expect(windowDrawing({ ...closed, p10: "2026-08-01" }, span)).toMatchObject({ early: 0 }));
});

describe("a forecast in words", () => {
  test("the column tells the likely month of each class, top-end first", () =>
    expect(likelyWords({ topEnd: closed, bottomEnd: open }, end, f)).toEqual([
      { part: "top", when: "Nov 2026", modelOnly: false, soldOn: null, beyond: false },
      { part: "bottom", when: "after Aug 2031", modelOnly: false, soldOn: null, beyond: true },
    ]));

  test("a crossed limit is now", () =>
    expect(likelyWords({ topEnd: none, bottomEnd: crossed }, end, f)).toEqual([
      { part: "bottom", when: "now", modelOnly: false, soldOn: null, beyond: false },
    ]));

  test("without a forecast the column says which of the two reasons it is", () => {
    expect(likelyWords({ topEnd: none, bottomEnd: none }, end, f)[0]?.when).toBe("not foreseen");
    expect(likelyWords({ topEnd: tooFew, bottomEnd: none }, end, f)[0]?.when).toBe("too few tests");
    expect(windowLines({ topEnd: none, bottomEnd: none }, end, f)).toEqual(["no repair foreseen"]);
    expect(windowLines({ topEnd: none, bottomEnd: tooFew }, end, f)).toEqual(["too few tests for a forecast"]);
  });

  test("a closed, a half open and an open range", () => {
    expect(windowInWords("top-end", closed, end, f)).toBe("top-end Sep 2026 to Feb 2027, likely Nov 2026");
    expect(windowInWords("top-end", { ...closed, p90: null }, end, f)).toBe(
      "top-end from Sep 2026, likely Nov 2026, no late end yet",
    );
    expect(windowInWords("bottom-end", open, end, f)).toBe("bottom-end from Jan 2029, likely after Aug 2031");
    expect(windowInWords("bottom-end", crossed, end, f)).toBe("bottom-end limit crossed");
  });

  test("a planned disposal before the likely date is told with its window, and drawn where the axis reaches it", () => {
    const sold = { ...closed, soldOn: "2026-10-15" };
    expect(windowInWords("top-end", sold, end, f)).toBe(
      "top-end Sep 2026 to Feb 2027, likely Nov 2026, sold before, on 15 Oct 2026",
    );
    expect(likelyWords({ topEnd: sold, bottomEnd: open }, end, f).map(({ soldOn }) => soldOn)).toEqual([
      "2026-10-15",
      null,
    ]);
    expect(soldAt(sold, span)).toBeCloseTo((100 * 45) / 1096, 9);
    expect(soldAt({ ...sold, soldOn: "2029-09-01" }, span)).toBeNull();
    expect(soldAt(closed, span)).toBeNull();
  });
});

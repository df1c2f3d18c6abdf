import { describe, expect, test } from "vitest";
import { columnIds, columnStyle, leavingBelow, usualColumns } from "../../../app/_ui/fleet/columns.ts";

describe("columns where there is little room", () => {
  test("each leaves at a width of its own, the band last", () => {
    const widths = leavingBelow(columnIds);
    expect(widths.map(([id]) => id).sort()).toEqual([...columnIds].sort());
    const ascending = widths.map(([, width]) => width);
    expect(ascending).toEqual([...new Set(ascending)].sort((a, b) => a - b));
    expect(widths[0]?.[0]).toBe("band");
  });

  test("the usual ones all stand beside an axis of 300 px from a window of 1,300 px on", () => {
    // The page's and the sheet's padding.
    const box = 1300 - 2 * 24 - 2 * 16;
    expect(Math.max(...leavingBelow(usualColumns).map(([, width]) => width))).toBeLessThanOrEqual(box);
  });

  test("the style names the columns shown and no others", () => {
    const style = columnStyle(["band", "top-chance"]);
    expect(style).toContain(".col-top-chance{display:none}");
    expect(style).not.toContain(".col-use");
    expect(style).not.toMatch(/[<>&]/);
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lineLabelWords, mergeLineLabels, spreadLabels } from "@/app/_ui/unit/line-labels.ts";

describe("mergeLineLabels", () => {
  it("joins labels nearer than the gap at the middle of their lines", () => {
    const ends = [
      { cylinder: 4, y: 110 },
      { cylinder: 2, y: 60 },
      { cylinder: 1, y: 100 },
    ];
    expect(mergeLineLabels(ends, 15)).toEqual([
      { cylinders: [2], y: 60 },
      { cylinders: [1, 4], y: 105 },
    ]);
  });

  it("leaves no two labels nearer than the gap and loses no cylinder", () => {
    const heights = fc.array(fc.double({ min: 0, max: 400, noNaN: true }), { maxLength: 16 });
    fc.assert(
      fc.property(heights, (ys) => {
        const labels = mergeLineLabels(
          ys.map((y, i) => ({ cylinder: i + 1, y })),
          15,
        );
        expect(labels.flatMap((l) => l.cylinders)).toHaveLength(ys.length);
        for (const [i, label] of labels.entries()) {
          const above = labels[i - 1];
          if (above !== undefined) expect(label.y - above.y).toBeGreaterThanOrEqual(15);
        }
      }),
    );
  });
});

describe("spreadLabels", () => {
  it("leaves labels that are clear of each other where they are, in the order given", () => {
    expect(spreadLabels([200, 20, 100], 14, 300)).toEqual([200, 20, 100]);
  });

  it("moves close ones apart and keeps the last above the foot", () => {
    expect(spreadLabels([100, 104], 14, 300)).toEqual([100, 114]);
    expect(spreadLabels([298, 300], 14, 300)).toEqual([286, 300]);
  });
});

describe("lineLabelWords", () => {
  it("tells a run by its ends", () => {
    expect(lineLabelWords([3])).toBe("cyl 3");
    expect(lineLabelWords([1, 2, 4])).toBe("cyl 1, 2, 4");
    expect(lineLabelWords([1, 2, 3, 4, 5, 7])).toBe("cyl 1–5, 7");
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readVisits, type Visits, visitsAfter, visitsText } from "@/lib/changes/visits.ts";

const minute = 60_000;
const start = Date.UTC(2026, 7, 3, 8);

/** The visits after pages were asked for at these minutes. */
const pages = (...minutes: number[]) =>
  minutes.reduce<Visits | null>((kept, at) => visitsAfter(kept, start + at * minute), null);

describe("a visit", () => {
  it("is the first while nothing was kept", () => {
    expect(pages(0)).toEqual({ before: null, latest: start });
    expect(pages(0, 10, 40)).toEqual({ before: null, latest: start + 40 * minute });
  });

  it("goes on for half an hour after each page, and is another a moment later", () => {
    expect(pages(0, 30)?.before).toBeNull();
    expect(pages(0, 30, 60)?.before).toBeNull();
    expect(visitsAfter(pages(0), start + 30 * minute + 1).before).toBe(start);
  });

  it("is told apart from the last page of the one before, whatever is looked at during it", () => {
    expect(pages(0, 20, 500)).toEqual({ before: start + 20 * minute, latest: start + 500 * minute });
    expect(pages(0, 20, 500, 510, 535)?.before).toBe(start + 20 * minute);
    expect(pages(0, 20, 500, 510, 600)?.before).toBe(start + 510 * minute);
  });

  it("noted twice for one page stays the same, and so it does in its cookie", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 20 }), (gaps) => {
        const times = gaps.map((_, i) => gaps.slice(0, i + 1).reduce((a, b) => a + b, 0));
        const visits = pages(...times) as Visits;
        const now = start + (times.at(-1) ?? 0) * minute;
        expect(visitsAfter(visits, now)).toEqual(visits);
        expect(visits.before ?? 0).toBeLessThan(visits.latest);
        expect(readVisits(visitsText(visits), now)).toEqual(visits);
      }),
    );
  });

  it.each([undefined, "", ".", "5", "5.x", "-5.6", "6.5", `.${start + 1}`, "1e3.2e3", "1.2.3"])(
    "kept as %s is not known of",
    (text) => expect(readVisits(text, start)).toBeNull(),
  );
});

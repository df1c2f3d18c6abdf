import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Domain, dateTicks, roundTicks } from "@/app/_ui/unit/axis.ts";
import {
  askedView,
  type Extent,
  moved,
  readAskedView,
  sameDomain,
  viewedDomain,
  withView,
  zoomCentre,
  zoomed,
} from "@/app/_ui/unit/axis-view.ts";

const extent: Extent = { whole: [20_000, 180_000], reach: [10_000, 360_000] };
const read = (query: string) => {
  const fields = new URLSearchParams(query);
  return readAskedView((name) => fields.get(name));
};

describe("what an address asks for", () => {
  it("is whole figures; anything else is not asked for", () => {
    expect(read("from=79000&to=150000")).toEqual({ from: 79_000, to: 150_000 });
    expect(read("from=-5&to=1e5")).toEqual({ from: -5, to: null });
    expect(read("from=7.5&to=")).toEqual({ from: null, to: null });
    expect(readAskedView(() => ["1", "2"])).toEqual({ from: null, to: null });
  });

  it("is shown as asked where there is something to show", () => {
    expect(viewedDomain(extent, read("from=79000&to=150000"))).toEqual([79_000, 150_000]);
    expect(viewedDomain(extent, read("from=79000"))).toEqual([79_000, 180_000]);
    expect(viewedDomain(extent, read("to=90000"))).toEqual([20_000, 90_000]);
  });

  it("is the whole where nothing is asked for or the ends cross", () => {
    expect(viewedDomain(extent, read(""))).toBe(extent.whole);
    expect(viewedDomain(extent, read("from=90000&to=80000"))).toBe(extent.whole);
    expect(viewedDomain(extent, read("from=400000"))).toBe(extent.whole);
  });

  it("goes no further than all there is, and not below a hundredth of it", () => {
    expect(viewedDomain(extent, read("from=0&to=999999"))).toEqual([10_000, 360_000]);
    expect(viewedDomain(extent, read("from=500000&to=600000"))).toEqual([260_000, 360_000]);
    const narrow = viewedDomain(extent, read("from=100000&to=100001"));
    expect(narrow[1] - narrow[0]).toBe(3_500);
    expect((narrow[0] + narrow[1]) / 2).toBeCloseTo(100_000.5, 6);
  });

  it("is written canonically, after the other fields, and not at all for the whole", () => {
    expect(askedView(extent, extent.whole)).toEqual({ from: null, to: null });
    expect(withView(new URLSearchParams("from=1&cylinder=3&to=2"), askedView(extent, [79_000.4, 150_000]))).toBe(
      "cylinder=3&from=79000&to=150000",
    );
    expect(withView(new URLSearchParams("from=1&cylinder=3&to=2"), { from: null, to: null })).toBe("cylinder=3");
  });
});

describe("steps", () => {
  it("zoom about today where it is in view, else about the middle", () => {
    expect(zoomCentre([20_000, 180_000], 148_600)).toBe(148_600);
    expect(zoomCentre([20_000, 80_000], 148_600)).toBe(50_000);
    const [from, to] = zoomed(extent, [20_000, 180_000], { times: 2, at: 148_600 });
    expect([from, to]).toEqual([84_300, 164_300]);
  });

  it("move by a share of what is shown and stop at the end", () => {
    expect(moved(extent, [100_000, 140_000], 0.25)).toEqual([110_000, 150_000]);
    expect(moved(extent, [320_000, 360_000], 0.25)).toEqual([320_000, 360_000]);
  });
});

describe("whatever is asked for and done", () => {
  const figure = fc.integer({ min: -1_000_000, max: 1_000_000 });
  const someExtent = fc
    .tuple(
      fc.integer({ min: -10_000, max: 500_000 }),
      fc.integer({ min: 3, max: 500_000 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
    )
    .map(([start, span, share]): Extent => {
      const whole: Domain = [start + 0.25 * share * span, start + span * (1 - 0.5 * share)];
      return { whole, reach: [start, start + span] };
    });
  const step = fc.oneof(
    fc.record({ times: fc.double({ min: 0.2, max: 5, noNaN: true }), at: fc.double({ min: 0, max: 1, noNaN: true }) }),
    fc.record({ share: fc.double({ min: -2, max: 2, noNaN: true }) }),
  );

  it("the domain is never empty, never beyond reach, and contains what was asked for within it", () => {
    fc.assert(
      fc.property(someExtent, fc.option(figure), fc.option(figure), (of, from, to) => {
        const [low, high] = viewedDomain(of, { from, to });
        expect(high).toBeGreaterThan(low);
        expect(low).toBeGreaterThanOrEqual(of.reach[0] - 1e-6);
        expect(high).toBeLessThanOrEqual(of.reach[1] + 1e-6);
        const asked = [from ?? of.whole[0], to ?? of.whole[1]] as const;
        if (asked[0] >= of.reach[0] && asked[1] <= of.reach[1] && asked[0] < asked[1]) {
          expect(low).toBeLessThanOrEqual(asked[0] + 1e-6);
          expect(high).toBeGreaterThanOrEqual(asked[1] - 1e-6);
        }
      }),
    );
  });

  it("steps keep it so, ticks lie inside, and the address leads back to the same domain", () => {
    fc.assert(
      fc.property(someExtent, fc.array(step, { maxLength: 12 }), (of, steps) => {
        let domain = of.whole;
        for (const one of steps) {
          domain =
            "share" in one
              ? moved(of, domain, one.share)
              : zoomed(of, domain, { times: one.times, at: domain[0] + one.at * (domain[1] - domain[0]) });
        }
        expect(domain[0]).toBeGreaterThanOrEqual(of.reach[0] - 1e-6);
        expect(domain[1]).toBeLessThanOrEqual(of.reach[1] + 1e-6);
        const ticks = roundTicks(domain, 7);
        expect(ticks.length).toBeGreaterThan(1);
        expect(ticks.every((t) => t >= domain[0] - 1e-6 && t <= domain[1] + 1e-6)).toBe(true);
        const again = viewedDomain(of, askedView(of, domain));
        for (const i of [0, 1] as const) expect(Math.abs(again[i] - domain[i])).toBeLessThanOrEqual(1.5);
      }),
    );
  });

  it("zooming in and out again about one place comes back to it", () => {
    const there = zoomed(extent, extent.whole, { times: 1.6, at: 148_600 });
    expect(sameDomain(zoomed(extent, there, { times: 1 / 1.6, at: 148_600 }), extent.whole)).toBe(true);
  });

  it("dates lie inside the view and tell themselves apart, however near one looks", () => {
    const pairs = [
      { x: 0, date: "2020-01-01" },
      { x: 200_000, date: "2026-08-31" },
      { x: 350_000, date: "2031-08-31" },
    ];
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 340_000 }), fc.integer({ min: 3_500, max: 350_000 }), (from, span) => {
        const domain: Domain = [from, Math.min(350_000, from + span)];
        const dates = dateTicks(pairs, domain);
        expect(dates.length).toBeGreaterThan(0);
        expect(dates.length).toBeLessThanOrEqual(7);
        expect(new Set(dates.map((d) => d.date)).size).toBe(dates.length);
        expect(dates.every((d) => d.x >= domain[0] && d.x <= domain[1])).toBe(true);
        expect(dates.every((d) => d.by === "day" || d.date.endsWith("-01"))).toBe(true);
      }),
    );
  });
});

import { describe, expect, test } from "vitest";
import { course, life, rate } from "./made-up-courses.ts";
import { compareModel } from "./whole.ts";

const flat = (unit: string, perThousand: number, more = {}) =>
  course(
    unit,
    [
      life(1, [
        [0, 10],
        [500, 10],
        [1000, 10],
      ]),
    ],
    { cylinders: 1, rates: [rate(perThousand)], ...more },
  );

const sisters = [1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9].map((speed, i) => flat(`U-${i}`, speed));
const standingsOf = (courses: ReturnType<typeof course>[]) => compareModel(courses)?.comparison.standings ?? [];

describe("a unit stands out", () => {
  test("when its rate passes nine in ten sisters and its kinder end their middle", () => {
    const [first, ...rest] = standingsOf([...sisters, flat("FAST", 5)]);
    expect(first).toMatchObject({ unit: "FAST", sisters: 10, slower: 10, fast: true });
    expect(rest.some((standing) => standing.fast)).toBe(false);
  });

  test("not for being the fastest alone", () => {
    const [first] = standingsOf([...sisters, flat("WIDE", 5, { rates: [rate(5, 4)] })]);
    expect(first).toMatchObject({ unit: "WIDE", slower: 10, fast: false });
  });

  test("not among fewer than five sisters", () => {
    expect(standingsOf([...sisters.slice(0, 4), flat("FAST", 5)]).some((s) => s.fast)).toBe(false);
  });

  test("with compression when it falls faster, told as measured", () => {
    const pressure = (unit: string, perThousand: number) =>
      flat(unit, perThousand, { measure: "compression-dry", rates: [rate(perThousand, 0.5), rate(-1, 0.5, 2)] });
    const courses = [...sisters.map((_, i) => pressure(`U-${i}`, -2 - i / 10)), pressure("FAST", -9)];
    expect(standingsOf(courses)[0]).toMatchObject({
      unit: "FAST",
      fast: true,
      fastest: { cylinder: 1, perThousand: -9 },
    });
  });

  test("when its last two readings lie beyond the band, and not for one", () => {
    const two = course(
      "TWO",
      [
        life(1, [
          [0, 10],
          [500, 25],
          [900, 26],
        ]),
      ],
      { cylinders: 1, rates: [rate(1)] },
    );
    const one = course(
      "ONE",
      [
        life(1, [
          [0, 10],
          [500, 10],
          [900, 26],
        ]),
      ],
      { cylinders: 1, rates: [rate(1)] },
    );
    const beyond = standingsOf([...sisters, ...sisters.map((s) => ({ ...s, unit: `${s.unit}b` })), two, one]);
    expect(beyond.filter((s) => s.beyondBand).map((s) => s.unit)).toEqual(["TWO"]);
  });
});

describe("readings beyond the band", () => {
  const readings = (unit: string, levels: readonly [number, number, number], more = {}) =>
    course(
      unit,
      [
        life(
          1,
          [
            [0, levels[0]],
            [500, levels[1]],
            [900, levels[2]],
          ],
          more,
        ),
      ],
      {
        cylinders: 1,
        rates: [rate(1)],
      },
    );
  const six = [10, 10.1, 10.2, 10.3, 10.4].map((level, i) => readings(`U-${i}`, [level, level, level]));
  const beyondOf = (courses: ReturnType<typeof course>[]) =>
    standingsOf(courses).flatMap((s) => (s.beyondBand ? [s.unit] : []));

  test("are told of one unit beside five others, whose band it is no part of", () => {
    expect(beyondOf([...six, readings("FAR", [10, 25, 26])])).toEqual(["FAR"]);
  });

  test("are not told of a cylinder that was repaired and not read since", () => {
    expect(beyondOf([...six, readings("MENDED", [10, 25, 26], { current: false })])).toEqual([]);
  });

  test("do not count where they were set aside", () => {
    const far = readings("FAR", [10, 25, 26]);
    const [only] = far.lives;
    const aside = {
      ...far,
      lives: [{ ...only!, points: only!.points.map(([x, l], i) => [x, l, i === 2 ? 0 : 1] as const) }],
    };
    expect(beyondOf([...six, aside])).toEqual([]);
  });

  test("of compression lie below the band, not above it", () => {
    const pressure = (unit: string, levels: readonly [number, number, number]) => ({
      ...readings(unit, levels),
      measure: "compression-dry" as const,
    });
    const others = [1000, 1001, 1002, 1003, 1004, 1005].map((level, i) => pressure(`U-${i}`, [level, level, level]));
    expect(beyondOf([...others, pressure("LOW", [1000, 800, 790]), pressure("HIGH", [1000, 1200, 1210])])).toEqual([
      "LOW",
    ]);
  });
});

test("hours and rates without tests enough are left to themselves: no rate, no standing", () => {
  const made = compareModel([...sisters, flat("NEW", 0, { rates: [] })]);
  expect(made?.comparison.units).toBe(11);
  expect(made?.comparison.standings).toHaveLength(10);
  expect(made?.rates.rates.middle[0]).toMatchObject({ engines: 10 });
});

test("rates by depot: five engines for quantiles, fewer by themselves, no depot last", () => {
  const at = (depot: string | null) => (c: (typeof sisters)[number]) => ({ ...c, depot });
  const courses = [
    ...sisters.slice(0, 6).map(at("B")),
    ...sisters.slice(6, 8).map(at(null)),
    ...sisters.slice(8).map(at("A")),
  ];
  const groups = compareModel(courses)?.rates.rates.weakest ?? [];
  expect(groups.map((g) => [g.depot, g.engines, g.quantiles === null])).toEqual([
    [undefined, 10, false],
    ["A", 2, true],
    ["B", 6, false],
    [null, 2, true],
  ]);
  expect(groups[1]?.rates).toEqual([1.8, 1.9]);
  expect(groups[2]?.quantiles?.p50).toBeCloseTo(1.25, 12);
});

test("of no course there is nothing to compare", () => expect(compareModel([])).toBeNull());

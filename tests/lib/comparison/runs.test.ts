import { expect, test } from "vitest";
import { type Line, levelAt, lineOf, runsOf } from "@/lib/comparison/runs.ts";
import { course, life } from "./made-up-courses.ts";

test("the weakest of the cylinders is the worse of each test: more leakage, less compression", () => {
  const lives = [
    life(1, [
      [100, 8],
      [200, 12],
    ]),
    life(2, [
      [100, 9],
      [200, 10],
    ]),
  ];
  const [run] = runsOf(course("A", lives), "new", "weakest");
  expect(run?.points.map(([x, level]) => [x, level])).toEqual([
    [100, 9],
    [200, 12],
  ]);
  const [pressure] = runsOf(course("A", lives, { measure: "compression-dry" }), "new", "weakest");
  expect(pressure?.points.map(([, level]) => level)).toEqual([8, 10]);
  expect(runsOf(course("A", lives), "new", "middle")[0]?.points.map(([, level]) => level)).toEqual([8.5, 11]);
});

test("readings that do not count leave the figure to the others, and stay hollow where nothing else was read", () => {
  const doubted = life(1, [], {
    points: [
      [100, 40, 0],
      [200, 50, 0],
    ],
  });
  const [run] = runsOf(course("A", [doubted, life(2, [[100, 9]])]), "new", "weakest");
  expect(run?.points).toEqual([
    [100, 9, 1],
    [200, 50, 0],
  ]);
});

test("a test of fewer than half of the cylinders does not speak for the engine", () => {
  const lives = [1, 2, 3, 4].map((c) =>
    life(
      c,
      c === 1
        ? [
            [100, 5],
            [150, 6],
          ]
        : [[100, 5]],
    ),
  );
  const [run] = runsOf(course("A", lives, { cylinders: 4 }), "new", "weakest");
  expect(run?.points.map(([x]) => x)).toEqual([100]);
});

test("since new, the engine is compared up to its first repair, and shown beyond it", () => {
  const lives = [
    life(
      1,
      [
        [100, 8],
        [200, 25],
      ],
      { current: false },
    ),
    life(
      1,
      [
        [300, 6],
        [400, 7],
      ],
      { begunBy: "top-end", fromX: 250 },
    ),
    life(2, [
      [100, 8],
      [200, 9],
      [300, 10],
      [400, 11],
    ]),
  ];
  const runs = runsOf(course("A", lives), "new", "weakest");
  expect(runs.map((run) => [run.compared, run.points.map(([x, level]) => [x, level])])).toEqual([
    [
      true,
      [
        [100, 8],
        [200, 25],
      ],
    ],
    [
      false,
      [
        [300, 10],
        [400, 11],
      ],
    ],
  ]);
  const each = runsOf(course("A", lives), "new", "each");
  expect(each.map((run) => [run.cylinder, run.compared])).toEqual([
    [1, true],
    [1, false],
    [2, true],
  ]);
});

test("a test at the repair's own meter reading is on the side that its life says", () => {
  const lives = [
    life(
      1,
      [
        [100, 8],
        [250, 25],
      ],
      { current: false },
    ),
    life(1, [[300, 6]], { begunBy: "top-end", fromX: 250 }),
    life(2, [
      [100, 8],
      [250, 9],
      [300, 10],
    ]),
  ];
  expect(runsOf(course("A", lives), "new", "weakest").map((run) => run.points.map(([x]) => x))).toEqual([
    [100, 250],
    [300],
  ]);
});

test("since a repair, the meter counts from it and only the cylinders that it renewed speak", () => {
  const lives = [
    life(
      1,
      [
        [100, 8],
        [200, 25],
      ],
      { current: false },
    ),
    life(
      1,
      [
        [300, 6],
        [400, 7],
      ],
      { begunBy: "top-end", fromX: 250 },
    ),
    life(2, [
      [100, 8],
      [400, 30],
    ]),
  ];
  const [run, ...more] = runsOf(course("A", lives), "top-end", "weakest");
  expect(more).toEqual([]);
  expect(run?.points.map(([x, level]) => [x, level])).toEqual([
    [50, 6],
    [150, 7],
  ]);
  expect(runsOf(course("A", lives), "bottom-end", "weakest")).toEqual([]);
});

test("an engine whose beginning is not known has no run since new", () => {
  expect(runsOf(course("A", [life(1, [[5000, 8]], { begunBy: "unknown", fromX: 4000 })]), "new", "weakest")).toEqual(
    [],
  );
});

test("the level between two readings lies on the line between them, and nowhere outside", () => {
  const line = lineOf({
    points: [
      [100, 10, 1],
      [150, 90, 0],
      [200, 20, 1],
    ],
  }) as Line;
  expect(levelAt(line, 125)).toBe(12.5);
  expect(levelAt(line, 100)).toBe(10);
  expect(levelAt(line, 200)).toBe(20);
  expect([levelAt(line, 99), levelAt(line, 201)]).toEqual([null, null]);
});

test("of fewer than two meter readings that count there is no line", () => {
  expect(lineOf({ points: [] })).toBeNull();
  expect(
    lineOf({
      points: [
        [100, 10, 1],
        [200, 20, 0],
      ],
    }),
  ).toBeNull();
});

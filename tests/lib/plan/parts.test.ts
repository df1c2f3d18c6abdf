import { describe, expect, it } from "vitest";
import { partsOf } from "../../../lib/plan/parts.ts";
import type { Programme } from "../../../lib/plan/programme.ts";

describe("the parts of a programme", () => {
  const option = (cost: number, covers: readonly number[], rows: readonly number[]) => ({
    cost,
    covers,
    uses: rows.map((row) => ({ row, amount: cost })),
  });
  const programme: Programme = {
    needs: 4,
    capacity: [10, 20, 30, 40],
    options: [
      option(1, [0], [3]),
      option(2, [1], [1]),
      option(3, [2], [3]),
      option(4, [2, 0], []),
      option(5, [3], []),
      option(6, [1], [1, 0]),
    ],
  };

  it("share no need and no row, and tell where their options stand in the whole", () => {
    const parts = partsOf(programme);
    expect(parts.map(({ options }) => options)).toEqual([[0, 2, 3], [1, 5], [4]]);
    expect(parts.map((part) => part.programme.needs)).toEqual([2, 1, 1]);
  });

  it("keep costs, amounts and capacities, and leave out the row that nobody uses", () => {
    const [first, second, third] = partsOf(programme).map((part) => part.programme);
    expect(first?.capacity).toEqual([40]);
    expect(first?.options).toEqual([
      { cost: 1, covers: [0], uses: [{ row: 0, amount: 1 }] },
      { cost: 3, covers: [1], uses: [{ row: 0, amount: 3 }] },
      { cost: 4, covers: [1, 0], uses: [] },
    ]);
    expect(second?.capacity).toEqual([20, 10]);
    expect(third?.capacity).toEqual([]);
  });

  it("are one where all are joined, and none of nothing", () => {
    const joined = { ...programme, options: [...programme.options, option(7, [0, 1, 2, 3], [])] };
    expect(partsOf(joined)).toHaveLength(1);
    expect(partsOf({ needs: 0, capacity: [1], options: [] })).toEqual([]);
  });
});

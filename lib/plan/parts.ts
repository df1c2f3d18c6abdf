import type { Programme, ProgrammeOption } from "./programme.ts";

/** A part of a programme that shares nothing with the rest, and where its options stand in the whole. */
export interface Part {
  readonly programme: Programme;
  readonly options: readonly number[];
}

/**
 * A programme as parts that have no need and no row in common: the plans of depots that share neither spare engines nor groups
 * of units. Each can be solved by itself, and the whole is the sum. Rows that nobody uses are left out.
 */
export function partsOf({ needs, options, capacity }: Programme): readonly Part[] {
  // Disjoint sets over needs and rows (Tarjan 1975), by the options that join them.
  const parent = Int32Array.from({ length: needs + capacity.length }, (_, i) => i);
  const find = (of: number): number => {
    let root = of;
    while (parent[root] !== root) root = parent[root] as number;
    for (let at = of; parent[at] !== root; ) {
      const next = parent[at] as number;
      parent[at] = root;
      at = next;
    }
    return root;
  };
  const join = (a: number, b: number) => {
    parent[find(a)] = find(b);
  };
  for (const { covers, uses } of options) {
    const first = covers[0] as number;
    for (const need of covers) join(first, need);
    for (const { row } of uses) join(first, needs + row);
  }
  const byRoot = new Map<number, number[]>();
  for (const [option, { covers }] of options.entries()) {
    const root = find(covers[0] as number);
    const of = byRoot.get(root);
    if (of === undefined) byRoot.set(root, [option]);
    else of.push(option);
  }
  return [...byRoot.values()].map((some) => ({ options: some, programme: numberedAnew(options, some, capacity) }));
}

function numberedAnew(
  options: readonly ProgrammeOption[],
  some: readonly number[],
  capacity: readonly number[],
): Programme {
  const needOf = new Map<number, number>();
  const rowOf = new Map<number, number>();
  const numberIn = (numbers: Map<number, number>, of: number): number => {
    const known = numbers.get(of);
    if (known !== undefined) return known;
    numbers.set(of, numbers.size);
    return numbers.size - 1;
  };
  const renumbered = some.map((option): ProgrammeOption => {
    const { cost, covers, uses } = options[option] as ProgrammeOption;
    return {
      cost,
      covers: covers.map((need) => numberIn(needOf, need)),
      uses: uses.map(({ row, amount }) => ({ row: numberIn(rowOf, row), amount })),
    };
  });
  return {
    needs: needOf.size,
    options: renumbered,
    capacity: [...rowOf.keys()].map((row) => capacity[row] as number),
  };
}

/** Something that takes a lane from one place to another. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A lane for each stretch, by their order: the first that is free, so that none lies over another. */
export function lanesOf(stretches: readonly Stretch[]): readonly number[] {
  const free: number[] = [];
  return stretches.map(({ from, to }) => {
    const lane = free.findIndex((until) => until <= from + 1e-9);
    const taken = lane < 0 ? free.length : lane;
    free[taken] = to;
    return taken;
  });
}

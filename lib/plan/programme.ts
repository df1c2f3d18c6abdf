/**
 * A set of needs, ways to cover them, and what there is for it: each need is covered by exactly one option, no row is used
 * beyond its capacity, and the cost is least. With options that cover one need each and rows for agents it is the
 * generalised assignment problem (Martello and Toth 1990, chapter 7).
 */
export interface Programme {
  readonly needs: number;
  readonly options: readonly ProgrammeOption[];
  readonly capacity: readonly number[];
}

export interface ProgrammeOption {
  readonly cost: number;
  /** Needs that it covers, at least one. */
  readonly covers: readonly number[];
  /** What it takes of each row, above 0. */
  readonly uses: readonly { readonly row: number; readonly amount: number }[];
}

/** Amounts that differ by less are taken as alike: hours and days are sums of shares. */
export const slack = 1e-6;

/** What is chosen by hand, one option after the other, and how much room it leaves. */
export class Choice {
  readonly #programme: Programme;
  readonly #left: number[];
  readonly #isCovered: boolean[];
  readonly #taken = new Set<number>();

  constructor(programme: Programme) {
    this.#programme = programme;
    this.#left = [...programme.capacity];
    this.#isCovered = new Array<boolean>(programme.needs).fill(false);
  }

  get taken(): ReadonlySet<number> {
    return this.#taken;
  }

  isCovered(need: number): boolean {
    return this.#isCovered[need] as boolean;
  }

  fits(option: number): boolean {
    const { covers, uses } = this.#programme.options[option] as ProgrammeOption;
    return (
      covers.every((need) => !this.#isCovered[need]) &&
      uses.every(({ row, amount }) => amount <= (this.#left[row] as number) + slack)
    );
  }

  /** Takes an option that fits. */
  take(option: number): void {
    if (!this.fits(option)) throw new Error("an option that does not fit was taken");
    const { covers, uses } = this.#programme.options[option] as ProgrammeOption;
    for (const need of covers) this.#isCovered[need] = true;
    for (const { row, amount } of uses) this.#left[row] = (this.#left[row] as number) - amount;
    this.#taken.add(option);
  }
}

export const costOf = ({ options }: Programme, taken: Iterable<number>): number => {
  let sum = 0;
  for (const option of taken) sum += (options[option] as ProgrammeOption).cost;
  return sum;
};

/** Whether every need is covered once and no row is overrun. */
export function isWithin({ needs, options, capacity }: Programme, taken: Iterable<number>): boolean {
  const covered = new Array<number>(needs).fill(0);
  const used = new Array<number>(capacity.length).fill(0);
  for (const option of taken) {
    const { covers, uses } = options[option] as ProgrammeOption;
    for (const need of covers) covered[need] = (covered[need] as number) + 1;
    for (const { row, amount } of uses) used[row] = (used[row] as number) + amount;
  }
  return covered.every((times) => times === 1) && used.every((of, row) => of <= (capacity[row] as number) + slack);
}

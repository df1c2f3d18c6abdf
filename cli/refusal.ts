/** Why the command did nothing, or not all, as one sentence for the person at the terminal. */
export class Refusal extends Error {
  override readonly name = "Refusal";
  /** 2: nothing was done. 1: something was, but not all. */
  readonly status: 1 | 2;

  constructor(message: string, status: 1 | 2 = 2) {
    super(message);
    this.status = status;
  }
}

/** Why the command did nothing, or not all, as one sentence for the person at the terminal. */
export class Refusal extends Error {
  override readonly name = "Refusal";
  /** 2: nothing was done, by the fault of an option or a file. 1: the machine or the database stands in the way. */
  readonly status: 1 | 2;

  constructor(message: string, status: 1 | 2 = 2) {
    super(message);
    this.status = status;
  }
}

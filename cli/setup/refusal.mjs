/** A reason to stop that the person at the terminal can act on: printed as one sentence, without a stack. */
export class Refusal extends Error {}

/** The person, or the machine that runs this, asked to stop while something was still being prepared. */
export class Stopped extends Error {
  /** @param {"SIGINT" | "SIGTERM"} signal */
  constructor(signal) {
    super(`stopped by ${signal}`);
    this.exitStatus = signal === "SIGINT" ? 130 : 143;
  }
}

/**
 * Runs a program of this folder; a refusal becomes one line on standard error and exit status 1.
 * @param {() => Promise<number | undefined>} program gives its exit status
 */
export async function main(program) {
  try {
    process.exitCode = (await program()) ?? 0;
  } catch (error) {
    if (error instanceof Stopped) process.exitCode = error.exitStatus;
    else if (error instanceof Refusal) {
      console.error(error.message);
      process.exitCode = 1;
    } else throw error;
  }
}

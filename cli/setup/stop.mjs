/** A request that is still open, such as the progress of a job, keeps a server that was asked to stop from ending. */
const patienceMs = 5_000;

/** One Ctrl-C may come twice at once: from the terminal, and passed on by npm. */
const sameMs = 500;

/**
 * Gives the function that stops a program: asked to once, with SIGTERM, it has some seconds to end; then, or when it is
 * asked to again, it is ended.
 * @param {{ kill: (signal: NodeJS.Signals) => unknown, once: (event: "close", listener: () => void) => unknown }} child
 * @param {{ clock?: () => number, patience?: number }} [time] milliseconds
 */
export function stopper(child, { clock = () => performance.now(), patience = patienceMs } = {}) {
  let askedAt;
  return () => {
    if (askedAt === undefined) {
      askedAt = clock();
      child.kill("SIGTERM");
      const end = setTimeout(() => child.kill("SIGKILL"), patience);
      child.once("close", () => clearTimeout(end));
    } else if (clock() - askedAt >= sameMs) child.kill("SIGKILL");
  };
}

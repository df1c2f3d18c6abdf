/** What a generator comes to, with nothing done between its steps. */
export function inOneGo<T>(steps: Generator<unknown, T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

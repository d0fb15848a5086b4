// Work in parts that halts after each of them, as a generator: done in one go, or in turns with what else a thread has to do.

export function runThrough<T>(work: Generator<void, T>): T {
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
  }
}

/** `yieldIfDue` is called at each halt. */
export async function runInTurns<T>(work: Generator<void, T>, yieldIfDue: () => Promise<void>): Promise<T> {
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
    await yieldIfDue();
  }
}

// Work of this thread while workers run: it yields every few milliseconds, so that the workers never wait for it.

const LONGEST_TURN = 4; // ms, well under what a task takes

/**
 * Both results, when both are there. `work` calls `yieldIfDue` wherever it may be interrupted; if `others` fail it stops there.
 */
export async function runAlongside<T, U>(
  others: Promise<T>,
  work: (yieldIfDue: () => Promise<void>) => Promise<U>,
): Promise<readonly [T, U]> {
  let failed = false;
  let turnStart = performance.now();
  const yieldIfDue = async (): Promise<void> => {
    if (failed) return new Promise(() => {});
    if (performance.now() - turnStart < LONGEST_TURN) return;
    await new Promise<void>((resolve) => setImmediate(resolve));
    turnStart = performance.now();
  };
  try {
    return await Promise.all([others, work(yieldIfDue)]);
  } catch (error) {
    failed = true;
    throw error;
  }
}

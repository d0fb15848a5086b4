// Work of this thread beside that of others: it steps back every few milliseconds, so that they are never kept waiting.

const LONGEST_TURN = 4; // ms, well under what a task takes

/**
 * Both, when both are there. `work` calls `breathe` wherever it may be put aside; where `others` fail it goes no further.
 */
export async function runAlongside<T, U>(
  others: Promise<T>,
  work: (yieldIfDue: () => Promise<void>) => Promise<U>,
): Promise<readonly [T, U]> {
  let failed = false;
  let turn = performance.now();
  const yieldIfDue = async (): Promise<void> => {
    if (failed) return new Promise(() => {});
    if (performance.now() - turn < LONGEST_TURN) return;
    await new Promise<void>((resolve) => setImmediate(resolve));
    turn = performance.now();
  };
  try {
    return await Promise.all([others, work(yieldIfDue)]);
  } catch (error) {
    failed = true;
    throw error;
  }
}

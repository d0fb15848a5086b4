// A lock on a place: one run alone writes into it, as long as it runs.
import { lockPlace } from "../files/lock.js";

/** InputError where another run holds the lock. */
export async function withLock<T>(place: string, work: () => Promise<T>): Promise<T> {
  const release = lockPlace(place);
  try {
    return await work();
  } finally {
    release();
  }
}

// A place that one run alone writes into, as long as it runs.
import { lockPlace } from "../files/lock.js";

/** InputError where another run is at it. */
export async function claimed<T>(place: string, work: () => Promise<T>): Promise<T> {
  const release = lockPlace(place);
  try {
    return await work();
  } finally {
    release();
  }
}

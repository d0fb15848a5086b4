// Checks for an interrupt between two files: drawing blocks the thread for seconds, in which no signal arrives.

/** The command was interrupted before it had written everything; each file it did write is complete. */
export class Interrupted extends Error {
  override readonly name = "Interrupted";
  constructor(path: string) {
    super(`interrupted before ${path} was written`);
  }
}

/** Lets a pending signal arrive. Throws Interrupted where there was one. */
export async function unlessInterrupted(signal: AbortSignal | undefined, path: string): Promise<void> {
  await new Promise<void>((resolve) => setImmediate(resolve));
  if (signal?.aborted) throw new Interrupted(path);
}

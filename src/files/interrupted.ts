// Between two files a command listens: drawing keeps the thread for seconds, in which no signal can be heard.

/** The command was told to end before it had written everything; what it did write is whole. */
export class Interrupted extends Error {
  override readonly name = "Interrupted";
  constructor(path: string) {
    super(`interrupted before ${path} was written`);
  }
}

/** Lets a signal in that has come meanwhile. Throws Interrupted where one has. */
export async function unlessInterrupted(signal: AbortSignal | undefined, path: string): Promise<void> {
  await new Promise<void>((resolve) => setImmediate(resolve));
  if (signal?.aborted) throw new Interrupted(path);
}

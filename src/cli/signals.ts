// Ctrl-C and a polite kill end a command, not a file: the command is told, and whatever it has not finished is not
// written.

/** Runs `work` with a signal that SIGINT, SIGTERM or SIGHUP aborts, each as often as it comes. */
export async function untilInterrupted<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const controller = new AbortController();
  const abort = () => controller.abort();
  const names = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
  for (const name of names) process.on(name, abort);
  try {
    return await work(controller.signal);
  } finally {
    for (const name of names) process.off(name, abort);
  }
}

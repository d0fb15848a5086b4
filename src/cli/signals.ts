// Ctrl-C and SIGTERM end a command but leave no half-written file: the command gets an abort signal, and what it has not
// finished is not written.
import { isatty } from "node:tty";

/**
 * Runs `work` with a signal that SIGINT or SIGTERM aborts, each as often as it comes, and SIGHUP where the command has
 * a terminal to lose.
 */
export async function untilInterrupted<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const controller = new AbortController();
  const endsOnHangup = onTerminal();
  const heard = {
    SIGINT: () => controller.abort(),
    SIGTERM: () => controller.abort(),
    SIGHUP: () => (endsOnHangup ? controller.abort() : undefined),
  };
  const names = Object.keys(heard) as (keyof typeof heard)[];
  for (const name of names) process.on(name, heard[name]);
  try {
    return await work(controller.signal);
  } finally {
    // First, so that no moment is left in which a hang-up ends the process: the files are complete, only the exit code is still to come.
    if (!process.listeners("SIGHUP").includes(tooLate)) process.on("SIGHUP", tooLate);
    for (const name of names) process.off(name, heard[name]);
  }
}

/** A hang-up after the work: there is nothing left to end. */
const tooLate = (): void => {};

/**
 * Whether any standard stream is a terminal. Under nohup none is; that it had SIGHUP ignored cannot be seen, since Node
 * sets every signal back before the first line of a program.
 */
const onTerminal = (): boolean => [0, 1, 2].some((stream) => isatty(stream));

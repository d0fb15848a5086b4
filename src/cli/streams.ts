// Standard output and error that cannot be written do not end a command: its results are on disk by then. The exit code
// says that the outcome could not be printed.
import { EXIT } from "./exit.js";

/**
 * Keeps both streams from ending the process. Returns a function that turns the code of a command into that of the
 * process: 3 in the place of 0 where standard output was lost. A regression stays one.
 */
export function guardOutput(output: NodeJS.WriteStream, errors: NodeJS.WriteStream): (code: number) => Promise<number> {
  guarded(errors);
  const state = guarded(output);
  return async (code) => {
    if (state.hasOutput()) await written(output, state.loss);
    const loss = state.loss();
    // A reader that went away, as `| head` does, has had what it wanted.
    if (loss === null || loss === "EPIPE" || code !== EXIT.done) return code;
    errors.write(`incomplete: the outcome could not be written to standard output (${loss})\n`);
    return EXIT.incomplete;
  };
}

interface StreamState {
  /** Whether anything was to be written. */
  hasOutput(): boolean;
  /** The first thing that went wrong, by the system's name for it. */
  loss(): string | null;
}

/** Catches errors of a stream, whether emitted or thrown. */
function guarded(stream: NodeJS.WriteStream): StreamState {
  let loss: string | null = null;
  let hasOutput = false;
  const note = (error: unknown) => {
    loss ??= (error as NodeJS.ErrnoException).code ?? "unknown reason"; // later ones only say that the stream has ended
  };
  stream.on("error", note);
  const { write } = stream;
  stream.write = ((...words: Parameters<typeof write>) => {
    hasOutput = true;
    try {
      return write.apply(stream, words);
    } catch (error) {
      note(error);
      return false;
    }
  }) as typeof write;
  return { hasOutput: () => hasOutput, loss: () => loss };
}

/** Waits until what was written has left, or could not. */
const written = (stream: NodeJS.WriteStream, lossOf: () => string | null): Promise<void> =>
  new Promise((resolve) => {
    stream.write("", () => setImmediate(resolve));
    if (lossOf() !== null) setImmediate(resolve);
  });

// Standard output and error that cannot be written: they end no work. What a command made is on disk by then; that its
// outcome went unheard is told by the exit code.
import { EXIT } from "./exit.js";

/**
 * Keeps both streams from ending the process. Answers a function that turns the code of a command into that of the
 * process: 3 in the place of 0 where standard output was lost. A regression stays one.
 */
export function outcomeHeard(
  output: NodeJS.WriteStream,
  errors: NodeJS.WriteStream,
): (code: number) => Promise<number> {
  survived(errors);
  const heard = survived(output);
  return async (code) => {
    if (heard.said()) await written(output, heard.loss);
    const loss = heard.loss();
    // A reader that went away, as `| head` does, has had what it wanted.
    if (loss === null || loss === "EPIPE" || code !== EXIT.done) return code;
    errors.write(`incomplete: the outcome could not be written to standard output (${loss})\n`);
    return EXIT.incomplete;
  };
}

interface Heard {
  /** Whether anything was to be written. */
  said(): boolean;
  /** The first thing that went wrong, by the system's name for it. */
  loss(): string | null;
}

/** Takes what goes wrong with a stream, told or thrown. */
function survived(stream: NodeJS.WriteStream): Heard {
  let loss: string | null = null;
  let said = false;
  const note = (error: unknown) => {
    loss ??= (error as NodeJS.ErrnoException).code ?? "unknown reason"; // later ones only say that the stream has ended
  };
  stream.on("error", note);
  const { write } = stream;
  stream.write = ((...words: Parameters<typeof write>) => {
    said = true;
    try {
      return write.apply(stream, words);
    } catch (error) {
      note(error);
      return false;
    }
  }) as typeof write;
  return { said: () => said, loss: () => loss };
}

/** Waits until what was written has left, or could not. */
const written = (stream: NodeJS.WriteStream, lossOf: () => string | null): Promise<void> =>
  new Promise((resolve) => {
    stream.write("", () => setImmediate(resolve));
    if (lossOf() !== null) setImmediate(resolve);
  });

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
  const lossOf = survived(output);
  return async (code) => {
    await written(output, lossOf);
    const loss = lossOf();
    // A reader that went away, as `| head` does, has had what it wanted.
    if (loss === null || loss === "EPIPE" || code !== EXIT.done) return code;
    errors.write(`incomplete: the outcome could not be written to standard output (${loss})\n`);
    return EXIT.incomplete;
  };
}

/** Takes what goes wrong with a stream, told or thrown; answers a function that gives the first of it. */
function survived(stream: NodeJS.WriteStream): () => string | null {
  let loss: string | null = null;
  const note = (error: unknown) => {
    loss ??= (error as NodeJS.ErrnoException).code ?? "unknown reason"; // later ones only say that the stream has ended
  };
  stream.on("error", note);
  const { write } = stream;
  stream.write = ((...words: Parameters<typeof write>) => {
    try {
      return write.apply(stream, words);
    } catch (error) {
      note(error);
      return false;
    }
  }) as typeof write;
  return () => loss;
}

/** Waits until what was written has left, or could not. */
const written = (stream: NodeJS.WriteStream, lossOf: () => string | null): Promise<void> =>
  new Promise((resolve) => {
    stream.write("", () => setImmediate(resolve));
    if (lossOf() !== null) setImmediate(resolve);
  });

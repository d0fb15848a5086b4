// Everything a command prints goes through one filter, so that no name in a file can send control codes to a terminal.
import { escapedAsJson } from "../base/hidden.js";
import { CLEAR_LINE } from "./progress.js";

/** Does the work with both streams filtered, and leaves them as they were. */
export async function withPlainOutput<T>(work: () => Promise<T>): Promise<T> {
  const restored = [process.stdout, process.stderr].map(filtered);
  try {
    return await work();
  } finally {
    for (const restore of restored) restore();
  }
}

function filtered(stream: NodeJS.WriteStream): () => void {
  const { write } = stream;
  stream.write = ((chunk: string | Uint8Array, ...rest: never[]) =>
    write.call(stream, typeof chunk === "string" ? plainText(chunk) : chunk, ...rest)) as typeof write;
  return () => {
    stream.write = write;
  };
}

/** Only the progress line may move what is on the terminal, and only from its start. */
const plainText = (text: string): string =>
  text.startsWith(CLEAR_LINE) ? CLEAR_LINE + escapedAsJson(text.slice(CLEAR_LINE.length)) : escapedAsJson(text);

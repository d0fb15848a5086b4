// Drawing once the results are on disk: each file is drawn and written in turn. If one cannot be drawn, a bug of ours,
// neither the results nor the other files are lost.
import { unlessInterrupted } from "../files/interrupted.js";
import { writeInTurn } from "../files/write.js";

/** Something could not be drawn; the data it is drawn from is on disk. The message is one line and says where. */
export class DrawingError extends Error {
  override readonly name = "DrawingError";
  /** `what` is a file, or in words what is missing; `note` a sentence without its full stop. */
  constructor(what: string, note: string, cause: unknown) {
    const [reason] = (cause instanceof Error ? cause.message : String(cause)).split("\n");
    super(`${reason}; ${what} is not drawn${note === "" ? "" : `. ${note}`}`, { cause });
  }
}

export interface Drawing {
  readonly path: string;
  readonly draw: () => string | Promise<string>;
}

/**
 * Draws and writes one file after the other; the contents in that order. Throws Interrupted and NotWritten as they come,
 * DrawingError for the first file that could not be drawn once all others are written.
 */
export async function drawInTurn(
  drawings: readonly Drawing[],
  note: string,
  signal: AbortSignal | undefined,
): Promise<string[]> {
  const faults: DrawingError[] = [];
  const contents: string[] = [];
  for (const { path, draw } of drawings) {
    await unlessInterrupted(signal, path);
    try {
      contents.push(await draw());
    } catch (error) {
      faults.push(new DrawingError(path, note, error));
      continue;
    }
    await writeInTurn([[path, contents.at(-1) ?? ""]], signal);
  }
  if (faults[0] !== undefined) throw faults[0];
  return contents;
}

// Drawing after the work is kept: each file drawn and written in turn. One that cannot be drawn, a fault of ours, takes
// neither what was simulated with it nor the other files.
import { unlessInterrupted } from "../files/interrupted.js";
import { writeInTurn } from "../files/write.js";

/** Something could not be drawn; what it is drawn from is kept. The message is one line and says where. */
export class Undrawn extends Error {
  override readonly name = "Undrawn";
  /** `what` is a file, or in words what is missing; `kept` a sentence without its full stop. */
  constructor(what: string, kept: string, cause: unknown) {
    const [reason] = (cause instanceof Error ? cause.message : String(cause)).split("\n");
    super(`${reason}; ${what} is not drawn${kept === "" ? "" : `. ${kept}`}`, { cause });
  }
}

export interface Drawing {
  readonly path: string;
  readonly draw: () => string | Promise<string>;
}

/**
 * Draws and writes one file after the other; the contents in that order. Throws Interrupted and NotWritten as they come,
 * Undrawn for the first file that could not be drawn once all others are written.
 */
export async function drawInTurn(
  drawings: readonly Drawing[],
  kept: string,
  signal: AbortSignal | undefined,
): Promise<string[]> {
  const faults: Undrawn[] = [];
  const contents: string[] = [];
  for (const { path, draw } of drawings) {
    await unlessInterrupted(signal, path);
    try {
      contents.push(await draw());
    } catch (error) {
      faults.push(new Undrawn(path, kept, error));
      continue;
    }
    await writeInTurn([[path, contents.at(-1) ?? ""]], signal);
  }
  if (faults[0] !== undefined) throw faults[0];
  return contents;
}

// A page that cannot be drawn does not end a command: it completes the rest, reports what is missing, and exits as a bug.
import { isFile } from "../files/folder.js";
import { DrawingError } from "../flow/drawing.js";
import { EXIT, reportFailure } from "./exit.js";

export interface DrawingErrors {
  /** Runs what writes results, and collects what could not be drawn. */
  readonly attempt: (work: () => Promise<unknown>) => Promise<void>;
  /** Reports on standard error what could not be drawn since the last call; to be called where no progress is shown. */
  readonly report: () => void;
  /** The exit code of the command, `otherwise` if everything was drawn. */
  readonly code: (otherwise: number) => number;
}

export function drawingErrors(): DrawingErrors {
  const unreported: DrawingError[] = [];
  let any = false;
  return {
    async attempt(work) {
      try {
        await work();
      } catch (error) {
        if (!(error instanceof DrawingError)) throw error;
        any = true;
        unreported.push(error);
      }
    },
    report() {
      for (const fault of unreported.splice(0)) reportFailure(fault, (line) => process.stderr.write(line));
    },
    code: (otherwise) => (any ? EXIT.bug : otherwise),
  };
}

/** Those of the files that are there. */
export const written = <T extends object>(files: T): Partial<T> =>
  Object.fromEntries(Object.entries(files).filter(([, file]) => isFile(file))) as Partial<T>;

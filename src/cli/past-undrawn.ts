// A page that cannot be drawn ends no command: it goes on with what is there, says what is missing, and ends as a bug.
import { isFile } from "../files/folder.js";
import { Undrawn } from "../flow/undrawn.js";
import { EXIT, reportFailure } from "./exit.js";

export interface PastUndrawn {
  /** Runs what writes results and passes over what could not be drawn of them. */
  readonly past: (work: () => Promise<unknown>) => Promise<void>;
  /** Says on standard error what could not be drawn since the last call; to be called where no progress is shown. */
  readonly tell: () => void;
  /** The exit code of the command, `otherwise` where all was drawn. */
  readonly code: (otherwise: number) => number;
}

export function pastUndrawn(): PastUndrawn {
  const untold: Undrawn[] = [];
  let met = false;
  return {
    async past(work) {
      try {
        await work();
      } catch (error) {
        if (!(error instanceof Undrawn)) throw error;
        met = true;
        untold.push(error);
      }
    },
    tell() {
      for (const fault of untold.splice(0)) reportFailure(fault, (line) => process.stderr.write(line));
    },
    code: (otherwise) => (met ? EXIT.bug : otherwise),
  };
}

/** Those of the files that are there. */
export const written = <T extends object>(files: T): Partial<T> =>
  Object.fromEntries(Object.entries(files).filter(([, file]) => isFile(file))) as Partial<T>;

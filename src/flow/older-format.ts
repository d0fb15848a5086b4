// Files of ours in an older or newer format than this version reads: they get one line, and no reader of their own.
import { type Document, problemAt } from "../base/document.js";
import { InputError, shortened } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";

/** The formats that change with the program, by the word in them, and the command that writes each. */
const WRITTEN = {
  map: { number: 2, command: "sweep" },
  baseline: { number: 2, command: "baseline" },
  drift: { number: 2, command: "compare" },
} as const;

const FORMAT = /^gainscape\.(map|baseline|drift)\/(\d{1,9})$/;

/** What is wrong with a format of another number, and what to do; null for this version's own and for anything else. */
export function otherFormat(format: unknown, sweep?: unknown): string | null {
  const [, word, digits] = (typeof format === "string" && FORMAT.exec(format)) || [];
  if (word === undefined) return null;
  const { number, command } = WRITTEN[word as keyof typeof WRITTEN];
  if (Number(digits) === number) return null;
  if (Number(digits) > number)
    return `${format} is newer than gainscape.${word}/${number}, the format of this version; read it with a newer gainscape`;
  const again = command === "compare" ? "gainscape compare" : `gainscape ${command} ${sweepWord(sweep)}`;
  return `${format} is an older format, which is no longer read; ${again} makes the file anew`;
}

const sweepWord = (sweep: unknown): string => (typeof sweep === "string" ? shellLine([shortened(sweep)]) : "<sweep>");

/** Throws InputError, one line, where a document is of another version of its format. */
export function refuseOtherFormat(document: Document): void {
  const { format, provenance } = (document.data ?? {}) as {
    readonly format?: unknown;
    readonly provenance?: { readonly sweep?: unknown } | null;
  };
  const message = otherFormat(format, provenance?.sweep);
  if (message !== null) throw new InputError([problemAt(document, ["format"], message)]);
}

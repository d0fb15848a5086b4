// A command as it can be typed again.

/** The words in one line, quoted for a POSIX shell where they need it. */
export const shellLine = (words: readonly string[]): string =>
  words.map((word) => (/^[\w./:=@%+-]+$/.test(word) ? word : `'${word.replaceAll("'", `'\\''`)}'`)).join(" ");

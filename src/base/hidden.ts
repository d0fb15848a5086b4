// The one table of characters that no text from a file may bring to a reader: what cannot be seen, and what turns the
// line around it or acts on a terminal.

// Controls of both ranges, format characters (direction marks, joiners, tags), line and paragraph separators, lone
// surrogates, whatever Unicode lets a program ignore (zero width, fillers, selectors), and the empty Braille pattern.
const KINDS = String.raw`\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}\p{Default_Ignorable_Code_Point}\u2800`;
const ONE = new RegExp(`[${KINDS}]`, "u");
const EACH = new RegExp(`[${KINDS}]`, "gu");
const RUNS = new RegExp(`[${KINDS}]+`, "gu");
const BUT_LINES = new RegExp(`(?!\\n)[${KINDS}]`, "gu");

/** Whether a text holds any of them. */
export const holdsHidden = (text: string): boolean => ONE.test(text);

/** Each of them spelt out, as \u{202e}: for messages, which quote what they complain of. */
export const escaped = (text: string): string =>
  text.replace(EACH, (one) => `\\u{${(one.codePointAt(0) ?? 0).toString(16)}}`);

/** A blank in place of each run of them: for pages and tables. */
export const withBlanks = (text: string): string => text.replace(RUNS, " ");

/** Each but line ends spelt as JSON spells it, so that JSON stays the same JSON: for whole outputs. */
export const escapedAsJson = (text: string): string =>
  text.replace(BUT_LINES, (one) =>
    [...Array(one.length).keys()].map((at) => `\\u${one.charCodeAt(at).toString(16).padStart(4, "0")}`).join(""),
  );

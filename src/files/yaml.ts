// YAML 1.2 text to plain data with the place of each value. Nothing a text holds can hang or crash this:
// nesting, aliases and values are capped, every other fault becomes a problem with a line and a column.
import { Lexer, parseDocument, type YAMLError } from "yaml";
import type { Document } from "../base/document.js";
import { InputError, type Path, type Problem, Problems, pathText } from "../base/problem.js";
import { placesOf } from "./lines.js";
import { treeOf } from "./nodes.js";

const DEEPEST = 32; // brackets, or list marks on one line

/** The document of a YAML text; InputError where it is none. */
export function readYaml(file: string, text: string): Document {
  const placeAt = placesOf(text);
  const problem = (offset: number, message: string, path: Path = []): Problem => ({
    file,
    ...placeAt(offset),
    path: pathText(path),
    message,
  });
  const control = text.search(CONTROL);
  if (control !== -1) throw new InputError([problem(control, "not YAML: it holds a control character")]);
  const deep = tooDeepAt(text);
  if (deep !== null) throw new InputError([problem(deep, `nested more than ${DEEPEST} levels deep`)]);
  const parsed = parsedQuickly(text);
  const broken = firstOnEachLine([...parsed.errors, ...parsed.warnings], placeAt);
  const tabs = tabbed(broken, text, placeAt);
  if (tabs !== null) throw new InputError([problem(tabs.offset, tabs.message)]);
  const syntax = new Problems();
  for (const error of broken) syntax.add(problem(error.pos[0], wordsOf(error)));
  syntax.throwIfAny();
  const tree = treeOf(parsed.contents);
  const faults = new Problems();
  for (const { offset, message, path } of tree.faults) faults.add(problem(offset, message, path));
  faults.throwIfAny();
  const place: Document["place"] = (path, of = "value") => placeAt(tree.offsetOf(path, of));
  return Object.freeze({ file, data: tree.data, place });
}

// Double keys are looked for in nodes.ts: the parser's own search takes quadratic time.
const PARSING = {
  version: "1.2",
  uniqueKeys: false,
  stringKeys: true,
  prettyErrors: false,
  logLevel: "error",
} as const;

/** The parser makes an error of each fault, which costs most by the stack it notes: 250 KiB may hold 250 000. */
function parsedQuickly(text: string): ReturnType<typeof parseDocument> {
  const savedLimit = Error.stackTraceLimit;
  Error.stackTraceLimit = 0;
  try {
    return parseDocument(text, PARSING);
  } finally {
    Error.stackTraceLimit = savedLimit;
  }
}

type Places = ReturnType<typeof placesOf>;

/** One mistake makes several errors on its line; the first describes it. */
function firstOnEachLine(errors: readonly YAMLError[], placeAt: Places): YAMLError[] {
  const lines = new Set<number>();
  return errors.filter(({ pos: [offset] }) => {
    const { line } = placeAt(offset);
    return !lines.has(line) && lines.add(line);
  });
}

/** Lines indented by tabs cause errors all around them: reported once, at the first of them, and nothing else. */
function tabbed(
  broken: readonly YAMLError[],
  text: string,
  placeAt: Places,
): { readonly offset: number; readonly message: string } | null {
  const starts = broken.map(({ pos: [offset] }) => offset - placeAt(offset).column + 1);
  const [first, ...others] = starts.filter((start) => INDENTED_BY_TAB.test(text.slice(start, start + LONGEST_INDENT)));
  if (first === undefined) return null;
  const lines = others.length === 1 ? "so is another line" : `so are ${others.length} more lines`;
  const more = others.length === 0 ? "" : `, and ${lines}`;
  return { offset: text.indexOf("\t", first), message: `indented by a tab, expected spaces${more}` };
}

const INDENTED_BY_TAB = /^ *\t/;
const LONGEST_INDENT = 200; // characters

const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/;

/** Offset of the token that opens one level too many, or null; checked first, since parsing is recursive. */
function tooDeepAt(text: string): number | null {
  let offset = 0;
  let open = 0;
  let marks = 0;
  for (const token of new Lexer().lex(text)) {
    if (token === "[" || token === "{") open++;
    else if (token === "]" || token === "}") open--;
    else if (token === "-" || token === "?") marks++;
    else if (token === "\n" || token === "\r\n") marks = 0;
    if (open > DEEPEST || marks > DEEPEST) return offset;
    // the lexer's own marks stand for nothing in the text
    if (!CONTROL.test(token)) offset += token.length;
  }
  return null;
}

function wordsOf(error: YAMLError): string {
  if (error.code === "MULTIPLE_DOCS") return "more than one document in the file";
  if (error.code === "NON_STRING_KEY") return "a key that is not a plain text";
  const [first = ""] = error.message.split("\n");
  return `not YAML that can be read: ${first}`;
}

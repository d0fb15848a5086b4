// YAML 1.2 text to plain data that remembers its places. Nothing a text holds can hang or crash this:
// nesting, aliases and values are capped, every other fault becomes a problem with a line and a column.
import { Lexer, parseDocument, type YAMLError } from "yaml";
import type { Document } from "../base/document.js";
import { InputError, type Path, type Problem, pathText } from "../base/problem.js";
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
  const parsed = parseDocument(text, PARSING);
  const broken = [...parsed.errors, ...parsed.warnings];
  if (broken.length > 0) throw new InputError(broken.map((error) => problem(error.pos[0], wordsOf(error))));
  const tree = treeOf(parsed.contents);
  if (tree.faults.length > 0) throw new InputError(tree.faults.map((f) => problem(f.offset, f.message, f.path)));
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

const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/;

/** Offset of the token that opens one level too many, or null; asked first, since parsing is recursive. */
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
  if (error.code === "NON_STRING_KEY") return "a key that is no plain text";
  const [first = ""] = error.message.split("\n");
  return `not YAML that can be read: ${first}`;
}

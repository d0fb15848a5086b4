// What kind of file a path names, so that a file of ours in the wrong place is reported in one line.
import { extname } from "node:path";
import { fileProblem, InputError } from "../base/problem.js";
import { isFile } from "../files/folder.js";
import { headOf, searched } from "../files/search.js";
import { otherFormat } from "./older-format.js";

const KINDS = {
  model: "a model",
  answers: "answers that a model is made from",
  flight: "a flight (what was flown, logged and seen)",
  sweep: "a sweep",
  script: "a script",
  map: "a stability map (map.json)",
  baseline: "a baseline",
  drift: "what a comparison found (drift.json)",
  effects: "what a sweep's changes do (effects.json)",
  shard: "a shard",
  draws: "a share of draws",
  trend: "records of a trend",
  cached: "a file of the cache",
  schema: "a schema for editors",
  table: "a table (CSV)",
  page: "a page (HTML)",
  results: "test results (XML)",
  summary: "a summary (Markdown)",
} as const;

export type FileKind = keyof typeof KINDS;

/** By the word in a format as gainscape.airframe/1. */
const FORMATS: Readonly<Record<string, FileKind>> = {
  airframe: "model",
  answers: "answers",
  flight: "flight",
  sweep: "sweep",
  script: "script",
  map: "map",
  baseline: "baseline",
  drift: "drift",
  effects: "effects",
  shard: "shard",
  draws: "draws",
  trend: "trend",
  trials: "cached",
  texts: "cached",
};

const EXTENSIONS: Readonly<Record<string, FileKind>> = { ".csv": "table", ".md": "summary" };

const HEAD = 4096; // bytes
const AS_YAML = /^format:[ \t]*["']?(gainscape\.([a-z]+)\/\d+)/m;
const AS_JSON = /"format"\s*:\s*"(gainscape\.([a-z]+)\/\d+)/;
const AS_BYTES = /^(gainscape\.([a-z]+)\/\d+)\n/;

/** Throws InputError where the file is plainly of a kind that is not wanted; accepts one whose kind cannot be determined. */
export function refuseOthers(path: string, allowed: readonly FileKind[], expected: string): void {
  const found = kindOf(path);
  if (found === null || allowed.includes(found.kind)) return;
  const other = otherFormat(found.format);
  const message = `this is ${KINDS[found.kind]}${other === null ? "" : ` (${other})`}; expected ${expected}`;
  throw new InputError([fileProblem(path, message)]);
}

/** The kind of a file and its format, where it has one; null where it is absent, no file, or none of ours. */
function kindOf(path: string): { readonly kind: FileKind; readonly format?: string } | null {
  if (!isFile(path)) return null;
  const head = headOf(path, HEAD).replace(/^\u00ef\u00bb\u00bf/, ""); // a byte order mark
  const [first = ""] = /\S/.exec(head) ?? [];
  if (first === "<") return { kind: /^\s*<\?xml/.test(head) ? "results" : "page" };
  if (first === "{" && /"\$schema"\s*:/.test(head)) return { kind: "schema" };
  const [, format = "", word = ""] = AS_BYTES.exec(head) ?? searched(path, first === "{" ? AS_JSON : AS_YAML) ?? [];
  const ours = Object.hasOwn(FORMATS, word) ? FORMATS[word] : undefined;
  if (ours !== undefined) return { kind: ours, format };
  const kind = head.startsWith("Axis,P [") ? "table" : EXTENSIONS[extname(path).toLowerCase()];
  return kind === undefined ? null : { kind };
}

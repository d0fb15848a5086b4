// A YAML text with some of its values replaced and everything else as it is: order, comments, spaces.
import { isScalar, parseDocument } from "yaml";
import type { Path } from "../base/problem.js";

export interface Edit {
  readonly path: Path;
  /** A plain scalar as YAML writes it. */
  readonly text: string;
  /** What the comment at the end of its line says besides what stands there; null: nothing. */
  readonly note: string | null;
}

const PARSING = { version: "1.2", uniqueKeys: false, logLevel: "error" } as const;

/** The text with each value replaced; null where a path leads to no value that is written there itself. */
export function editedYaml(text: string, edits: readonly Edit[]): string | null {
  const document = parseDocument(text, PARSING);
  const changes: Change[] = [];
  const notes = new Map<number, string[]>();
  for (const { path, text: replaced, note } of edits) {
    const node = document.getIn(path, true);
    if (!isScalar(node) || !node.range) return null;
    const [from, to] = node.range;
    changes.push({ from, to, text: replaced });
    if (note === null) continue;
    const end = lineEnd(text, to);
    notes.set(end, [...(notes.get(end) ?? []), note]);
  }
  for (const [end, some] of notes) changes.push({ from: end, to: end, text: commentAt(text, end, some.join("; ")) });
  return changes
    .sort((one, other) => other.from - one.from)
    .reduce((changed, { from, to, text: put }) => changed.slice(0, from) + put + changed.slice(to), text);
}

/** The source of the scalar at a path as a plain text; null where none is written there itself. */
export function scalarAt(text: string, path: Path): string | null {
  const node = parseDocument(text, PARSING).getIn(path, true);
  return isScalar(node) && node.range ? String(node.value) : null;
}

interface Change {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

function lineEnd(text: string, from: number): number {
  const end = text.indexOf("\n", from);
  const last = end === -1 ? text.length : end;
  return text[last - 1] === "\r" ? last - 1 : last;
}

function commentAt(text: string, end: number, note: string): string {
  const line = text.slice(text.lastIndexOf("\n", end - 1) + 1, end);
  // A quantity holds no # of its own; a text in quotes before a number on the same line may.
  const commented = /(^|\s)#/.test(line.replace(/"[^"]*"|'[^']*'/g, ""));
  return commented ? `; ${note}` : ` # ${note}`;
}

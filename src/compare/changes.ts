// Two pieces of plain data leaf by leaf: which keys differ.
import { type Path, pathText } from "../base/problem.js";

export interface Change {
  readonly path: Path;
  readonly key: string; // "propeller.diameter", "rotors[2].at[0]"
  /** Undefined: absent on that side. */
  readonly before: unknown;
  readonly after: unknown;
}

const DEEPEST = 24; // levels; deeper parts are compared as a whole

/** Every leaf that differs, by key; a list that grew has its new items as absent before. */
export function changesBetween(before: unknown, after: unknown, path: Path = []): Change[] {
  if (Object.is(before, after)) return [];
  const parts = path.length < DEEPEST ? partsOf(before, after) : null;
  if (parts !== null) return parts.flatMap(([key, a, b]) => changesBetween(a, b, [...path, key]));
  if (JSON.stringify(before) === JSON.stringify(after)) return [];
  return [{ path, key: pathText(path), before, after }];
}

type Part = readonly [key: string | number, before: unknown, after: unknown];

/** The parts of two lists or two groups side by side; null where the two are not both of one kind. */
function partsOf(before: unknown, after: unknown): Part[] | null {
  if (Array.isArray(before) && Array.isArray(after)) {
    const longest = before.length > after.length ? before : after;
    return longest.map((_, at) => [at, before[at], after[at]]);
  }
  if (!isGroup(before) || !isGroup(after)) return null;
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])].sort(); // a file read back has them in another order
  return keys.map((key) => [key, own(before, key), own(after, key)]);
}

type Group = Readonly<Record<string, unknown>>;

const isGroup = (value: unknown): value is Group =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const own = (group: Group, key: string): unknown => (Object.hasOwn(group, key) ? group[key] : undefined);

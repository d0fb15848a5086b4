// Keys as messages spell them, read back: "frame.parts[2].mass", "frame.parts[heat camera].mass".
import type { Path } from "./problem.js";

/** Of a model at once: "key=value" each, of so many characters at most. */
export const MOST_SETTINGS = 20;
export const LONGEST_SETTING = 400;

const STEP = /(?:^|\.)([^.[\]=\s][^.[\]=]*)|\[([^[\]]+)\]/y;
const INDEX = /^\d{1,6}$/;

/** The steps of a key: numbers in brackets are places in a list, all other texts keys or names of members; null: not a key. */
export function stepsOf(key: string): Path | null {
  const steps: (string | number)[] = [];
  STEP.lastIndex = 0;
  while (STEP.lastIndex < key.length) {
    const [, plain, member] = STEP.exec(key) ?? [];
    if (plain === undefined && (member === undefined || steps.length === 0)) return null;
    steps.push(plain ?? (INDEX.test(member ?? "") ? Number(member) : (member ?? "").trim()));
  }
  return steps.length === 0 ? null : steps;
}

/** "key=value" at the first = outside brackets; null where there is none. */
export function keyAndValue(text: string): readonly [key: string, value: string] | null {
  const [whole, key] = /^((?:[^=[\]]|\[[^\]]*\])*)=/.exec(text) ?? [];
  return whole === undefined || key === undefined ? null : [key.trim(), text.slice(whole.length).trim()];
}

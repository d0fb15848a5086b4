// The numbers of a model by name: in plain words where there is a title, else as the model file spells the key.
import { parameterTitle } from "../base/parameter-titles.js";

/** What the loop gain's spread stands for: nobody can measure it. */
const LOOP_GAIN = "loop gain";

/** Whether a number is one that a builder could measure. */
export const canBeMeasured = (key: string): boolean => key !== LOOP_GAIN;

/** "motor resistance", or "frame.parts[6].mass". */
export const numberTitle = (key: string): string =>
  key === LOOP_GAIN ? "what the model leaves out" : parameterTitle(key);

/** The key beside its title; nothing where both are the same. */
export const keyBeside = (key: string): string => (numberTitle(key) === key ? "" : key);

const INDEX = /\[(\d+)\]/;

/** Titles of many numbers, keys that differ in their first index alone as one: "frame.parts[0, 2, 3].mass". */
export function numberTitles(keys: readonly string[]): string[] {
  const indices = new Map<string, string[]>();
  for (const key of keys) {
    const shape = numberTitle(key).replace(INDEX, "[]");
    const [, index] = INDEX.exec(key) ?? [];
    indices.set(shape, [...(indices.get(shape) ?? []), ...(index === undefined ? [] : [index])]);
  }
  return [...indices].map(([shape, found]) =>
    shape.replace("[]", `[${found.sort((one, other) => Number(one) - Number(other)).join(", ")}]`),
  );
}

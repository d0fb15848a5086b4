// One draw in words: the numbers that lie furthest from the model as it is written, in units of their spreads.
import { at } from "../base/at.js";
import { ln } from "../base/elementary.js";
import type { DrawOfMap, SpreadOfMap } from "../map/confidence-format.js";
import { numberTitle } from "./number-words.js";
import { toThreeDigits, withUnit } from "./numbers.js";

/** How far a value lies from the number as written, in units of its spread. */
const spreadsOff = ({ nominal, law, size }: SpreadOfMap, value: number): number =>
  law === "log-normal" ? ln(value / nominal) / ln(1 + size) : (value - nominal) / size;

const SHOWN = 4;
/** Nobody asks about a number that lies nearer than this to what is written. */
const NEAR = 0.1;

/** "motor resistance 22 % more (0.75 × its ±)", the furthest first. */
export function drawnWords(spreads: readonly SpreadOfMap[], { values }: DrawOfMap): string[] {
  const off = spreads.map((spread, k) => {
    const value = at(values, k);
    return { spread, value, off: spreadsOff(spread, value) };
  });
  off.sort((one, other) => Math.abs(other.off) - Math.abs(one.off));
  return off
    .slice(0, SHOWN)
    .filter(({ off: by }, k) => k === 0 || Math.abs(by) >= NEAR)
    .map(({ spread, value, off: by }) => {
      const far = `${toThreeDigits(Number(Math.abs(by).toPrecision(2)))}\u00a0\u00d7\u00a0its\u00a0\u00b1`;
      return `${numberTitle(spread.key)} ${changeWords(spread, value)} (${far})`;
    });
}

const twoDigits = (value: number): number => Number(Math.abs(value).toPrecision(2));

/** Places in mm, whose nominal may be nothing; everything else as a share of the number. */
function changeWords({ key, nominal }: SpreadOfMap, value: number): string {
  const side = value < nominal ? "less" : "more";
  if (/\.at\[\d\]$|\.centre_of_mass\[\d\]$/.test(key))
    return `${withUnit(twoDigits(1000 * (value - nominal)), "mm")} ${side}`;
  return `${withUnit(twoDigits((100 * (value - nominal)) / Math.abs(nominal || 1)), "%")} ${side}`;
}

// Numbers and texts as a model file holds them.
import { canonicalJson } from "../base/canonical.js";
import { inUnitOf, type Kind } from "../base/units.js";
import type { Estimate } from "./estimate.js";

/** Three figures of an estimate say more than anybody knows. */
const figured = (value: number): string => String(Number(value.toPrecision(3)));

/** An SI number in a unit, in as many figures as it takes to give it back. */
export const textOf = (value: number, kind: Kind, unit: string): string =>
  `${Number(inUnitOf(value, kind, unit).toPrecision(10))} ${unit}`;

/** "69 mohm ± 50 %"; the share rounded up. */
export function withSpread({ value, spread }: Estimate, kind?: Kind, unit?: string): string {
  const number = figured(kind === undefined || unit === undefined ? value : inUnitOf(value, kind, unit));
  const share = `± ${Math.ceil(100 * spread - 1e-9)} %`;
  return unit === undefined ? `${number} ${share}` : `${number} ${unit} ${share}`;
}

/** A text that YAML reads back as the same text, whatever is in it. */
export const quoted = (text: string): string =>
  /^[\p{L}][\p{L}\p{N} _-]*$/u.test(text) && !/^(true|false|null|yes|no)$/i.test(text) ? text : canonicalJson(text);

// The spread of a number that is given anew without one: as wide as before, as a share of the number.

import type { PlacedSpread } from "../base/spreads-in.js";
import { inUnitOf, KINDS, type Kind } from "../base/units.js";

/** The number as it is given now. */
export interface Placed {
  readonly written: string;
  /** SI. */
  readonly nominal: number;
  /** Undefined: a number without a unit. */
  readonly unit: { readonly kind: Kind; readonly unit?: string } | undefined;
}

/**
 * The text of the number with the spread it had; null where that leaves none, as of 0. What may be negative is a distance from an
 * origin or nearly so, and its spread no share of it: that stays as wide as it is.
 */
export function placedSpreadText(before: PlacedSpread, { written, nominal, unit }: Placed): string | null {
  const { law, size, least } = before;
  const share = law === "log-normal" ? size : size / Math.abs(before.nominal);
  const half = least < 0 || before.nominal === 0 ? size : share * Math.abs(nominal);
  if (half === 0) return null;
  if (law === "uniform") return `${inUnit(nominal - half, unit)} to ${inUnit(nominal + half, unit)}`;
  // A percentage beside a share would be in the share's own unit.
  const relative =
    least >= 0 && before.nominal !== 0 && !(unit !== undefined && Object.hasOwn(KINDS[unit.kind].units, "%"));
  return relative ? `${written} ± ${twelve(100 * share)} %` : `${written} ± ${inUnit(half, unit)}`;
}

/** Twelve digits, so that 20 % comes back as 20 %. */
const twelve = (value: number): number => Number(value.toPrecision(12));

function inUnit(value: number, unit: Placed["unit"]): string {
  if (unit === undefined) return String(twelve(value));
  const name = unit.unit ?? Object.keys(KINDS[unit.kind].units)[0] ?? "";
  return `${twelve(inUnitOf(value, unit.kind, name))} ${name}`;
}

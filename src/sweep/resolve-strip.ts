// From what a file asks of a strip to the strip, complete.
import { STRIP_MEASURES, type StripKind } from "../base/strip-measures.js";
import type { SweepFile } from "./schema.js";
import type { RequestedStrip, RequestedSweep } from "./sweep.js";

type StripFile = NonNullable<NonNullable<SweepFile["strips"]>[StripKind]>;
/** A strip as a file asks for it, its scripts read. */
export type ReadStrip = readonly [StripKind, Omit<StripFile, "scripts"> & Pick<RequestedStrip, "scripts">];

type Assume = <T>(given: T | undefined, fallback: T, line: string) => T;

/** Gains of a strip where its file does not say how many: a third from each to the next. */
const POINTS = 14;

/** A limit that is left out is the catalogue's or, where that has none, the sweep's own. */
export function resolvedStrip(
  [kind, { scripts, points, limits: given = {} }]: ReadStrip,
  ofSweep: RequestedSweep["limits"],
  assume: Assume,
): readonly [StripKind, RequestedStrip] {
  const limits = STRIP_MEASURES[kind].map(({ id, key, unit, limit, reads }) => {
    const fallback = limit ?? ofSweep[reads];
    const line = `strips.${kind}.limits.${key}: ${fallback ?? "none"} ${unit === "1" ? "" : unit}`.trim();
    return [id, given[key] === null ? null : assume<number | null>(given[key], fallback, line)] as const;
  });
  return [
    kind,
    {
      scripts,
      points: assume(points, POINTS, `strips.${kind}.points: ${POINTS}`),
      limits: Object.fromEntries(limits),
    },
  ];
}

// How large a sweep may be; the same limits hold for a map that is read back.

/** Of P or of D. */
export const MOST_GRID_LINES = 1024;
export const MOST_POINTS = 65_536;
/** At each point of the grid. */
export const MOST_VARIANTS = 2_048;
/** Lines of D times variants, each with a boundary of its own in the map: half of what a JSON file may hold. */
export const MOST_BOUNDARIES = 262_144;

/** Points of a grid with these lines. */
export const pointCount = ({ p, d }: { readonly p: readonly unknown[]; readonly d: readonly unknown[] }): number =>
  p.length * d.length;

// Drifts of the invented map: against itself, and against one whose boundary fell and whose pinned tune went bad.
import { compareMaps } from "../../../src/compare/compare.js";
import type { Drift } from "../../../src/compare/format.js";
import type { AxisMap, PinnedPoint, StabilityMap } from "../../../src/map/format.js";
import type { Axis } from "../../../src/sweep/sweep.js";
import { fixture } from "../fixture.js";

const pinnedPoint = (safe: boolean): PinnedPoint => ({
  p: 21,
  d: 3,
  own: null,
  verdict: safe ? "clean" : "ringing",
  decidedBy: safe ? null : { script: "roll-stop", throttle: 80, rate: 500, condition: "fresh pack" },
  measures: {},
  margins: { gainUp: safe ? 8.2 : 4.4, gainDown: null, phase: safe ? 52 : 31 },
  safe,
  boundary: { d: 3, p: safe ? 50 : 34 },
});

const question = (map: StabilityMap) => ({
  seed: 1,
  grid: { roll: map.axes.roll.grid, pitch: map.axes.pitch.grid },
  scripts: [],
  conditions: [],
  limits: map.limits,
  margins: { gain: 6, phase: Math.PI / 4 },
  boundaryTolerance: 0.005,
  pinned: null,
});

function planned(map: StabilityMap, pinned: boolean | null): StabilityMap {
  const plan = {
    digest: "ab".repeat(32),
    sweep: question(map),
    variants: map.variants.map(() => ({ hovering: false })),
  };
  const axis = (name: Axis): AxisMap =>
    pinned === null ? map.axes[name] : { ...map.axes[name], pinned: pinnedPoint(pinned) };
  return { ...map, plan, axes: { roll: axis("roll"), pitch: axis("pitch") } };
}

export const base = (): StabilityMap => planned(fixture(14), true);
export const unpinned = (): StabilityMap => planned(fixture(14), null);

/** The base with starting tunes of a tenth less P and a fifth more D. */
export function tunedElsewhere(): StabilityMap {
  const map = base();
  const moved = (axis: AxisMap): AxisMap =>
    axis.start === null ? axis : { ...axis, start: { ...axis.start, p: 0.9 * axis.start.p, d: 1.2 * axis.start.d } };
  return { ...map, axes: { roll: moved(map.axes.roll), pitch: moved(map.axes.pitch) } };
}

/** The base's boundary a tenth lower, a few safe points lost, another model, and a name that tries to be markup. */
export function worse(name = "Sandpiper"): StabilityMap {
  const map = planned(fixture(14), false);
  const lower = (axis: AxisMap): AxisMap => ({
    ...axis,
    boundary: {
      ...axis.boundary,
      sustained: axis.boundary.sustained.map((point) => ({ ...point, p: point.p === null ? null : 0.9 * point.p })),
    },
    safe: axis.safe.map((row) => row.map((safe, j) => safe && j % 2 === 0)),
  });
  return {
    ...map,
    airframe: { ...map.airframe, name, version: "r2" },
    model: { controller: { latency: 0.002 } },
    axes: { roll: lower(map.axes.roll), pitch: lower(map.axes.pitch) },
  };
}

export function driftOf(from: StabilityMap, to: StabilityMap): Drift {
  const drift = compareMaps(from, to, { productVersion: "0.1.0", command: "gainscape compare a b" });
  if ("differences" in drift) throw new Error("cannot be compared");
  return drift;
}

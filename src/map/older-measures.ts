// Measures that the version which made a map did not know yet: null everywhere, with a reason of their own, never judged.
// So a measure that is added to the catalogue leaves maps and baselines readable.
import { ABSENCES, MEASURE_IDS, type MeasureId } from "../base/measures.js";
import type { Fault } from "./fault.js";
import type { StabilityMap } from "./format.js";

/** The code of every point of such a measure. */
export const OLDER_MAP = ABSENCES.indexOf("older map, made before this measure was known");

const AXES = ["roll", "pitch"] as const;

type Named<T> = Readonly<Partial<Record<MeasureId, T>>>;

/** A map as it was written: every group of measures may lack those its version did not know. */
export type StoredMap = Omit<StabilityMap, "limits" | "axes"> & {
  readonly limits: Named<number | null>;
  readonly axes: Readonly<Record<(typeof AXES)[number], StoredAxis>>;
};
type StoredAxis = Omit<StabilityMap["axes"]["roll"], "measures" | "absent"> & {
  readonly measures: Named<StabilityMap["axes"]["roll"]["measures"][MeasureId]>;
  readonly absent: Named<StabilityMap["axes"]["roll"]["absent"][MeasureId]>;
};

const groupsOf = ({ limits, axes }: StoredMap) => [
  { path: ["limits"], group: limits as Named<unknown> },
  ...AXES.flatMap((axis) => [
    { path: ["axes", axis, "measures"], group: axes[axis].measures as Named<unknown> },
    { path: ["axes", axis, "absent"], group: axes[axis].absent as Named<unknown> },
  ]),
];

/** A measure that some groups name and others lack. */
export function missingMeasures(map: StoredMap): Fault[] {
  const groups = groupsOf(map);
  return MEASURE_IDS.filter((id) => groups.some(({ group }) => group[id] !== undefined)).flatMap((id) =>
    groups.filter(({ group }) => group[id] === undefined).map(({ path }): Fault => [[...path, id], "missing"]),
  );
}

/** The map with every measure of the catalogue: those it lacks have no limit and are null with the reason. */
export function withEveryMeasure(map: StoredMap): StabilityMap {
  const axis = (name: (typeof AXES)[number]) => {
    const { grid, measures, absent } = map.axes[name];
    const filled = <T>(value: T) => grid.d.map(() => grid.p.map(() => value));
    return {
      ...map.axes[name],
      measures: everyMeasure(measures, () => filled(null)),
      absent: everyMeasure(absent, () => filled(OLDER_MAP)),
    };
  };
  return {
    ...map,
    limits: everyMeasure(map.limits, () => null),
    axes: { roll: axis("roll"), pitch: axis("pitch") },
  };
}

function everyMeasure<T>(group: Named<T>, otherwise: () => T): Record<MeasureId, T> {
  const lacking = MEASURE_IDS.filter((id) => group[id] === undefined).map((id) => [id, otherwise()]);
  return { ...group, ...Object.fromEntries(lacking) } as Record<MeasureId, T>;
}

/** Measures that the version which made the map did not know, in the catalogue's order. */
export const unknownMeasures = ({ axes }: Pick<StabilityMap, "axes">): MeasureId[] =>
  MEASURE_IDS.filter((id) => AXES.every((axis) => axes[axis].absent[id].every((row) => row.every(isOlder))));

const isOlder = (code: number): boolean => code === OLDER_MAP;

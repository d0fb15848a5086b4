// Records in an order that no merging of files changes, and nights on which nothing changed put together.
import { at } from "../base/at.js";
import { sameData } from "../base/same-data.js";
import { instantOf } from "./date.js";
import type { TrendRecord } from "./format.js";
import type { Stage } from "./trend.js";

/**
 * Versions in the order in which they came up, the nights of each by date: several versions may be recorded every night. A version's
 * first stage is compared with what the version before it was then.
 */
export function stagesOf(records: readonly TrendRecord[]): Stage[] {
  const dated = records.map((record) => ({ record, instant: instantOf(record.date) }));
  dated.sort(
    (a, b) =>
      a.instant - b.instant ||
      naturally(a.record.airframe.version, b.record.airframe.version) ||
      (a.record.seal < b.record.seal ? -1 : 1),
  );
  const byVersion = new Map<string, TrendRecord[]>();
  for (const { record } of dated) {
    const { version } = record.airframe;
    const list = byVersion.get(version);
    if (list === undefined) byVersion.set(version, [record]);
    else list.push(record);
  }
  const stages: Stage[] = [];
  let earlier: readonly [from: number, to: number] | null = null;
  for (const list of byVersion.values()) {
    const start = stages.length;
    for (const stage of unchanged(list)) {
      const before: number | null =
        stages.length > start ? stages.length - 1 : earlier === null ? null : current(stages, earlier, stage);
      stages.push({ ...stage, before });
    }
    earlier = [start, stages.length];
  }
  return stages;
}

/** The last stage of a range that had begun by then, or its first. */
function current(
  stages: readonly Stage[],
  [from, to]: readonly [number, number],
  { first }: Pick<Stage, "first">,
): number {
  const then = instantOf(first);
  let found = from;
  for (let k = from; k < to; k++) if (instantOf(at(stages, k).first) <= then) found = k;
  return found;
}

function unchanged(records: readonly TrendRecord[]): Omit<Stage, "before">[] {
  const stages: Omit<Stage, "before">[] = [];
  let before: TrendRecord | null = null;
  for (const record of records) {
    const { airframe, product, seed, tolerance, axes, yaw, date, sweep } = record;
    const unmoved = before !== null && isSame(before, record);
    before = record;
    const open = stages.at(-1);
    if (open !== undefined && unmoved) {
      const sweeps = open.sweeps.includes(sweep) ? open.sweeps : [...open.sweeps, sweep].sort();
      stages[stages.length - 1] = {
        ...open,
        last: date,
        records: open.records + 1,
        sweeps,
        tolerance: Math.max(open.tolerance, tolerance),
      };
      continue;
    }
    const { version, digest: craft } = airframe;
    stages.push({
      version,
      craft,
      product,
      seed,
      tolerance,
      first: date,
      last: date,
      records: 1,
      sweeps: [sweep],
      axes,
      ...(yaw === undefined ? {} : { yaw }),
    });
  }
  return stages;
}

const isSame = (one: TrendRecord, other: TrendRecord): boolean =>
  one.airframe.digest === other.airframe.digest &&
  one.product === other.product &&
  one.seed === other.seed &&
  sameData([one.axes, one.yaw ?? null], [other.axes, other.yaw ?? null]);

const PARTS = /\d+|\D+/g;

/** As people count versions: r2 before r10. */
function naturally(a: string, b: string): number {
  const [left, right] = [a.match(PARTS) ?? [], b.match(PARTS) ?? []];
  for (let k = 0; k < Math.max(left.length, right.length); k++) {
    const [one = "", other = ""] = [left[k], right[k]];
    const apart = Number(one) - Number(other);
    if (one !== "" && other !== "" && apart !== 0 && !Number.isNaN(apart)) return apart;
    if (one !== other && (one === "" || other === "" || Number.isNaN(apart))) return one < other ? -1 : 1;
  }
  return a === b ? 0 : a < b ? -1 : 1;
}

// A finished map as the record it leaves.
import { at } from "../base/at.js";
import { digestOf } from "../base/digest.js";
import { MEASURE_IDS } from "../base/measures.js";
import { sealed } from "../base/seal.js";
import type { Axis } from "../compare/format.js";
import { levelEnds } from "../compare/levels.js";
import { followedQuestion, planOf } from "../compare/question.js";
import { type End, endOf } from "../compare/shift.js";
import type { StabilityMap, StartingTune } from "../map/format.js";
import type { Strip } from "../map/strip-format.js";
import type { AxisRecord, EndOfRange, StartRecord, StripRecord, TrendRecord } from "./format.js";
import { MOST_D } from "./shape.js";

/** As baselines have them, so that a baseline leaves the record of its map. */
const DIGITS = 5;
const LINE_DIGITS = 16; // of a digest, enough to tell grids of one model apart

/** The record of a map, sealed; `date` as the caller gives it. */
export function recordOf(map: StabilityMap, date: string): TrendRecord {
  const { name, version, digest } = map.airframe;
  const { seed, boundaryTolerance } = planOf(map).sweep;
  return sealed({
    format: "gainscape.trend/1",
    date,
    product: map.product.version,
    airframe: { name, version, digest },
    sweep: map.sweep.name,
    question: digestOf(followedQuestion(map)),
    plan: planOf(map).digest,
    seed,
    tolerance: boundaryTolerance,
    axes: { roll: axisRecord("roll", map), pitch: axisRecord("pitch", map) },
    ...(map.strips?.yaw === undefined ? {} : { yaw: stripRecord(map.strips.yaw) }),
  } as const);
}

function axisRecord(name: Axis, map: StabilityMap): AxisRecord {
  const { grid, boundary, safe, safeShare, start } = map.axes[name];
  const strip = map.strips?.i?.[name];
  const rows = evenly(grid.d.length, MOST_D);
  const chosen = <T>(list: readonly T[]): T[] => rows.map((row) => at(list, row));
  const ends = (all: readonly End[]) => chosen(all).map(endWords);
  return {
    lines: digestOf(grid).slice(0, LINE_DIGITS),
    top: rounded(at(grid.p, grid.p.length - 1)),
    d: chosen(grid.d),
    boundary: ends(boundary.sustained.map(endOf)),
    safe: chosen(safe).map((row) => row.includes(true)),
    levels: levelEnds(name, map).map(({ throttle, condition, ends: all }) => ({
      throttle,
      condition,
      boundary: ends(all),
    })),
    safeShare: rounded(safeShare),
    start: start === null ? null : startRecord(start),
    ...(strip === undefined ? {} : { i: stripRecord(strip) }),
  };
}

function stripRecord({ limits, titles, choice, range }: Strip): StripRecord {
  const end = range === null ? "none" : range.above === null ? "above" : rounded(range.to);
  return {
    asked: digestOf([limits, titles]).slice(0, LINE_DIGITS),
    choice: choice === null ? null : rounded(choice),
    to: end,
  };
}

/** So many of `count` places at most, the first and the last among them, as evenly as they fall. */
function evenly(count: number, most: number): number[] {
  const few = Math.min(count, most);
  return Array.from({ length: few }, (_, k) => (few === 1 ? 0 : Math.round((k * (count - 1)) / (few - 1))));
}

function endWords({ p, stable }: End): EndOfRange {
  if (p !== null) return rounded(p);
  return stable ? "above" : "none";
}

function startRecord({ p, d, i, margins, measures, otherSeeds }: StartingTune): StartRecord {
  const seeded = MEASURE_IDS.flatMap((id) => {
    const [value, range] = [measures[id], otherSeeds?.ranges[id]];
    return value == null || range === undefined
      ? []
      : [[id, { value: rounded(value), range: range.map(rounded) }] as const];
  });
  const { gainUp, gainDown, phase } = margins;
  const orNull = (value: number | null) => (value === null ? null : rounded(value));
  return {
    p: rounded(p),
    d: rounded(d),
    i: rounded(i),
    margins: { gainUp: orNull(gainUp), gainDown: orNull(gainDown), phase: rounded(phase) },
    seeded: Object.fromEntries(seeded) as StartRecord["seeded"],
  };
}

const rounded = (value: number): number => Number(value.toPrecision(DIGITS));

// The record a finished map leaves, format gainscape.trend/1: one line of canonical JSON in a file of its model. Gains are in
// the units of files, as in map.json.
import type { MeasureId } from "../base/measures.js";
import type { Axis } from "../compare/format.js";

/** Upper end of the stable P range that counts: P, or on which side of the grid it lies. */
export type EndOfRange = number | "above" | "none";

export interface LevelRecord {
  readonly throttle: number | "hover"; // % duty
  readonly condition: string;
  /** Worst case over the level's scripts, per D of the record. */
  readonly boundary: readonly EndOfRange[];
}

export interface StartRecord {
  readonly p: number;
  readonly d: number;
  readonly i: number;
  /** dB, dB, deg; null where no rise or fall of gain destabilises. */
  readonly margins: { readonly gainUp: number | null; readonly gainDown: number | null; readonly phase: number };
  /** Of measures that depend on the seed: the value, and the lowest and highest under other seeds. */
  readonly seeded: Readonly<Partial<Record<MeasureId, SeededValue>>>;
}

export interface SeededValue {
  readonly value: number;
  readonly range: readonly [lowest: number, highest: number];
}

/** Yaw's P, or an axis's I, judged along a line. */
export interface StripRecord {
  /** Digest of its limits and scripts: strips of others answer another question. */
  readonly asked: string;
  /** The gain to take; null where none passes. */
  readonly choice: number | null;
  /** Upper end of what passes; "above": the strip ends there and the gain still passes. */
  readonly to: EndOfRange;
}

export interface AxisRecord {
  /** Digest of the lines of P and D: shares of points compare on the same lines alone. */
  readonly lines: string;
  readonly top: number; // highest P of the grid
  /** The D at which the boundary is recorded: a few lines of the grid. */
  readonly d: readonly number[];
  readonly boundary: readonly EndOfRange[]; // per D
  /** Whether any P is safe there, per D. */
  readonly safe: readonly boolean[];
  readonly levels: readonly LevelRecord[];
  readonly safeShare: number; // 0 to 1
  readonly start: StartRecord | null;
  /** Where the sweep judges I. */
  readonly i?: StripRecord;
}

export interface TrendRecord {
  readonly format: "gainscape.trend/1";
  /** As the caller gave it: a day, or a time with its offset from UTC (ISO 8601). */
  readonly date: string;
  readonly product: string; // version of gainscape
  readonly airframe: { readonly name: string; readonly version: string; readonly digest: string };
  readonly sweep: string;
  /** Digest of what was asked, apart from seed and lines. */
  readonly question: string;
  readonly plan: string; // digest
  readonly seed: number;
  /** `boundary_tolerance` of the sweep, a fraction. */
  readonly tolerance: number;
  readonly axes: Readonly<Record<Axis, AxisRecord>>;
  /** Where the sweep judges yaw's P. */
  readonly yaw?: StripRecord;
  /** SHA-256 of everything else: two records with one seal are one. */
  readonly seal: string;
}

// effects.json, format gainscape.effects/1: what each change of a model does to its map. Plain data in display units; what is
// missing is null. "As it is" is the model that is swept, "changed" the same with something taken out or put in.
import type { MeasureId } from "../base/measures.js";
import type { Baseline } from "./baseline.js";
import type { Axis } from "./format.js";

export interface Both<T> {
  readonly asItIs: T;
  readonly changed: T;
}

/** A difference between both maps, changed less as it is, in % of the map as it is. */
export interface Difference {
  /** Null: nothing to be a share of, or beyond the grid on both sides. */
  readonly percent: number | null;
  /** Whether it is more than grid and bisection can tell apart. */
  readonly seen: boolean;
}

/** The same tune in both: the start of the model as it is, or the pinned one of the sweep. */
export interface TuneEffect {
  readonly p: number;
  readonly d: number;
  readonly safe: Both<boolean>;
  /** dB; null: no rise of gain destabilises. */
  readonly gainUp: Both<number | null>;
  /** deg */
  readonly phase: Both<number>;
  /** Worst values of the measures that have a limit; only those that both sides have. */
  readonly measures: readonly MeasureEffect[];
}

export interface MeasureEffect extends Both<number> {
  readonly id: MeasureId;
  /** Whether it moved by more than a tenth of its limit. */
  readonly seen: boolean;
}

export interface OwnStart {
  readonly p: number;
  readonly d: number;
  /** Factor by which P may rise; null: nothing found. */
  readonly room: number | null;
}

export interface AxisEffect {
  /** Safe ground as an area of the map. */
  readonly ground: Difference & {
    readonly points: Both<number>;
  };
  /** The sustained boundary: the median over D. */
  readonly boundary: Difference;
  /** The same under each condition alone, in the order of the sweep. */
  readonly conditions: readonly (Difference & { readonly condition: string })[];
  /** Null where the model as it is has no start on both axes. */
  readonly tune: TuneEffect | null;
  readonly start: Both<OwnStart | null>;
}

/** ms, of P's share of the command and of D's, at `frequency`. */
export interface DelayEffect {
  readonly p: Both<number>;
  readonly d: Both<number>;
}

export interface Effect {
  readonly kind: "without" | "with";
  readonly name: string;
  readonly set: readonly string[];
  /** Null: the model has nothing of it to take out, so that nothing was simulated. */
  readonly found: {
    readonly delayMs: DelayEffect;
    readonly axes: Readonly<Record<Axis, AxisEffect>>;
    /** Of safe ground, % over both axes, by having the thing; what the list is sorted by. */
    readonly gain: number;
    readonly planDigest: string;
    /** Of the changed model: a baseline, whose format goes without saying in a file of another. */
    readonly map: Omit<Baseline, "format">;
  } | null;
}

export const EFFECTS_FORMAT = "gainscape.effects/1";

export interface Effects {
  readonly format: typeof EFFECTS_FORMAT;
  readonly product: { readonly name: "gainscape"; readonly version: string };
  readonly airframe: {
    readonly name: string;
    readonly version: string;
    readonly title: string;
    readonly digest: string;
  };
  readonly sweep: { readonly name: string; readonly title: string; readonly digest: string };
  readonly command: string;
  readonly planDigest: string;
  /** Hz, at which delays are stated. */
  readonly delayFrequency: number;
  /** The largest gain first. */
  readonly effects: readonly Effect[];
}

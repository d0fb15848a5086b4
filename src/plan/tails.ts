// Tails long enough for slow oscillations: six half-cycles must fit into them, or a sustained oscillation is taken for one
// that dies out. Theory says how slow the oscillations on the edge of stability are; scripts of a quick craft stay as they
// are written.

import type { AxisGains } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { idleCommand } from "../airframe/duty.js";
import { at, last } from "../base/at.js";
import { LONGEST } from "../sweep/ranges.js";
import type { Axis, Script, Sweep } from "../sweep/sweep.js";
import { slowEdges } from "../theory/slow-edges.js";
import { dutyOf } from "./duty.js";
import { sharedTrim } from "./shared-trim.js";

/**
 * Cycles of the slowest oscillation that a tail has room for: three are six half-cycles, and one more, since the first
 * passage is not counted and the swing is a little slower still beyond the edge.
 */
export const CYCLES = 4;

const STEP = 0.01; // s, to which a tail's end is rounded up

/** What theory says of oscillations too slow for the scripts as they are written. */
export interface SlowOscillations {
  readonly axis: Axis;
  /** Hz of the slowest that the lengthened tails show; null: none was lengthened. */
  readonly shown: number | null;
  /** s, the longest tail. */
  readonly tail: number;
  /** Hz of the slowest that fits into no script: theory alone judges it; null: there is none. */
  readonly unseen: number | null;
}

interface TailedVariant {
  readonly script: Script;
  readonly axis: Axis;
  readonly throttle: number;
  readonly condition: number;
}

interface TailInput {
  readonly sweep: Sweep;
  readonly conditions: readonly { readonly craft: Craft }[];
  /** Gains of the axes not under test. */
  readonly holding: Readonly<Record<Axis | "yaw", AxisGains>>;
}

/**
 * The variants with the tails they need, and what theory says of slow oscillations: nothing where none is slow. `ends`: per
 * variant the least instant (s) at which its tail may end, for the sake of a craft that it is compared with.
 */
export function lengthenTails<V extends TailedVariant>(
  input: TailInput,
  variants: readonly V[],
  ends: readonly number[] = [],
): {
  readonly variants: readonly V[];
  readonly slow: readonly SlowOscillations[];
  readonly assumed: readonly string[];
} {
  const edges = new Map<string, readonly number[]>();
  const shortest = Math.min(...variants.map(({ script }) => lengthOf(script)));
  const edgesOf = (variant: V): readonly number[] => {
    const { script, axis, throttle, condition } = variant;
    const { craft } = at(input.conditions, condition);
    const idle = idleCommand(craft.airframe);
    const final = script.throttle.at(-1)?.[1] ?? { kind: "level", plus: 0 };
    const duty = Math.min(1, Math.max(idle, dutyOf(final, throttle, idle)));
    const key = `${axis} ${duty} ${condition}`;
    const found = edges.get(key) ?? slowest(input, axis, condition, duty, CYCLES / shortest);
    edges.set(key, found);
    return found;
  };
  const planned = variants.map((variant) => lengthened(variant, edgesOf(variant)));
  const slow = (["roll", "pitch"] as const).flatMap((axis) => slowOf(axis, planned));
  const needed = slow.length === 0 ? variants : planned.map(({ variant }) => variant);
  const shared = needed.map((variant, at) => endingAt(variant, ends[at] ?? 0));
  const longer = shared.some((variant, at) => variant !== needed[at]);
  return { variants: shared, slow, assumed: longer ? [SHARED_TAILS] : [] };
}

const SHARED_TAILS = "Tails are as long as the slower of the compared crafts needs them.";

/** With a tail that lasts until `end` (s) at least; the variant itself where it does. */
function endingAt<V extends TailedVariant>(variant: V, end: number): V {
  const { script } = variant;
  const { from, to } = script.tail;
  if (end <= to) return variant;
  return { ...variant, script: { ...script, duration: Math.max(script.duration, end), tail: { from, to: end } } };
}

const lengthOf = ({ tail }: Script): number => tail.to - tail.from;

/** Hz, rising, below a limit. */
function slowest(
  { sweep, conditions, holding }: TailInput,
  axis: Axis,
  condition: number,
  duty: number,
  below: number,
): readonly number[] {
  const { craft } = at(conditions, condition);
  const { p, d } = sweep.grid[axis];
  const pinned = sweep.pinned === null ? [] : [sweep.pinned[axis].d];
  const gains = {
    d: [...d, ...pinned],
    i: craft.airframe.controller[axis].i,
    p: { from: at(p, 0), to: last(p) },
  };
  const turns = 2 * Math.PI;
  const found = slowEdges(craft, sharedTrim(craft, duty), axis, holding, gains, turns * below);
  return found.map((frequency) => frequency / turns);
}

interface Planned<V> {
  readonly variant: V;
  readonly shown: number | null;
  readonly unseen: number | null;
}

function lengthened<V extends TailedVariant>(variant: V, edges: readonly number[]): Planned<V> {
  const { script } = variant;
  const { from, to } = script.tail;
  const slow = edges.filter((frequency) => CYCLES / frequency > to - from);
  const fits = (frequency: number) => CYCLES / frequency <= LONGEST - from;
  const shown = slow.find(fits) ?? null;
  const unseen = slow.find((frequency) => !fits(frequency)) ?? null;
  if (shown === null) return { variant, shown, unseen };
  const end = Math.min(LONGEST, Number((STEP * Math.ceil((from + CYCLES / shown) / STEP)).toFixed(2)));
  const longer = { ...script, duration: Math.max(script.duration, end), tail: { from, to: end } };
  return { variant: { ...variant, script: longer }, shown, unseen };
}

function slowOf(axis: Axis, planned: readonly Planned<TailedVariant>[]): SlowOscillations[] {
  const mine = planned.filter(({ variant, shown, unseen }) => variant.axis === axis && (shown ?? unseen) !== null);
  if (mine.length === 0) return [];
  const least = (of: (one: Planned<TailedVariant>) => number | null): number | null =>
    mine.reduce<number | null>((least, one) => {
      const hertz = of(one);
      return hertz !== null && (least === null || hertz < least) ? hertz : least;
    }, null);
  return [
    {
      axis,
      shown: least(({ shown }) => shown),
      tail: Math.max(...mine.map(({ variant }) => lengthOf(variant.script))),
      unseen: least(({ unseen }) => unseen),
    },
  ];
}

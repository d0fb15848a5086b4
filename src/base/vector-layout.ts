// What the translator lays out and the kernel fills: one home for both sides of the shared memory.

/** Trials side by side in one call: pairs of lanes, each pair one vector register. Four pairs hide each other's waiting. */
export const PAIRS = 4;
export const LANES = 2 * PAIRS;

/** Where there is one trial or two: the other pairs would simulate for nobody. */
export const NARROW_PAIRS = 1;

/** Bytes of a number and of a vector, which holds two. */
export const DOUBLE = 8;
export const VECTOR = 2 * DOUBLE;

/** Bytes of a page of memory; the first one is the translated function's own. */
export const PAGE = 65_536;

/** What the loop reckons with in a stretch of control periods: its counts `disturbed` and `accumulate`. */
export interface SegmentCounts {
  readonly disturbed: 0 | 1;
  readonly accumulate: 0 | 1;
}

/** Kinds of stretches: neither climb nor gusts nor wash; all of them; all of them and sums. */
export const SEGMENT_COUNTS = Object.freeze({
  still: { disturbed: 0, accumulate: 0 },
  disturbed: { disturbed: 1, accumulate: 0 },
  accumulated: { disturbed: 1, accumulate: 1 },
} as const satisfies Readonly<Record<string, SegmentCounts>>);

export type SegmentKind = keyof typeof SEGMENT_COUNTS;
export const SEGMENT_KINDS = Object.freeze(Object.keys(SEGMENT_COUNTS) as SegmentKind[]);

/**
 * Name of the function for stretches of a kind, with roll (0), pitch (1) or yaw (2) under test, in so many pairs of lanes. Yaw and
 * the narrow ones have none of their own for still air, which is moving air that does not move: a third of their code need not be
 * shipped.
 */
export function segmentFunction(kind: SegmentKind, axis: 0 | 1 | 2, pairs: number): string {
  const own = kind === "still" && (axis === 2 || pairs === NARROW_PAIRS) ? "disturbed" : kind;
  return widthName(`${own}_${axis}`, pairs);
}

/** Name of a pass over the traces. */
export const passFunction = (name: string, pairs: number): string => widthName(name, pairs);

const widthName = (name: string, pairs: number): string => (pairs === NARROW_PAIRS ? `${name}_narrow` : name);

/** Numbers of complex pieces a loop may be split into, each with a function of its own in theory's module. */
export const PIECE_COUNTS = Object.freeze([3, 4, 5] as const);

/** Name of the pass over the frequencies of a loop in so many pieces. */
export const marksFunction = (pieces: number): string => `marks_${pieces}`;

// The one catalogue of gates: how much drift between two maps is allowed before a nightly run fails. Sweep files,
// the judge and every report read this table.

export type GateId = "pinnedSafe" | "newSustained" | "boundaryFall" | "safeShrink" | "startSafe";

export interface Gate {
  readonly id: GateId;
  readonly title: string;
  /** Unit of the value and of what is allowed. */
  readonly unit: "%" | "points" | "tunes";
  /** Allowed by default, in `unit`; more than that fails. */
  readonly allowed: number;
  /** What the value is. */
  readonly measures: string;
  /** Why the gate stands, and why at this value. */
  readonly why: string;
}

/**
 * Which value of a drift with an interval is judged: that of the models as they are written, or the end of the interval that
 * is the worse for the craft.
 */
export const GATE_JUDGES = ["middle", "lower"] as const;
export type GateJudge = (typeof GATE_JUDGES)[number];

/** What each gate allows, in its unit; null: off. */
export type Gates = Readonly<Record<GateId, number | null>>;

const gate = (id: GateId, title: string, unit: Gate["unit"], allowed: number, measures: string, why: string): Gate =>
  Object.freeze({ id, title, unit, allowed, measures, why });

/** From the gravest to the mildest. */
export const GATES: readonly Gate[] = Object.freeze([
  gate(
    "pinnedSafe",
    "Pinned tune stays safe",
    "tunes",
    0,
    "1 where the pinned tune was safe and no longer is",
    "Somebody flies these gains today.",
  ),
  gate(
    "newSustained",
    "No new oscillation in safe ground",
    "points",
    0,
    "points that were safe and now sustain an oscillation",
    "A safe point had all its margin; losing the whole of it in one change is never a matter of degree.",
  ),
  gate(
    "boundaryFall",
    "Sustained boundary holds",
    "%",
    5,
    "largest fall of the sustained boundary in P, at each D up to the last of safe ground, where it is in the grid on a side",
    "Five per cent is 0.45 dB of the 6 dB wanted, and ten times the width to which a boundary is narrowed.",
  ),
  gate(
    "safeShrink",
    "Safe area holds",
    "%",
    15,
    "points of safe ground lost less those gained, as a share of the base's",
    "Wide on purpose: settling time jumps by half a swing, so a row of points may flip while little has changed.",
  ),
  gate(
    "startSafe",
    "Starting tune stays in safe ground",
    "tunes",
    0,
    "starting tunes, the base's and the candidate's, that lie outside the safe region of the other map",
    "Who starts from yesterday's map must be safe today; a new start on ground that was not safe needs a look.",
  ),
]);

export const DEFAULT_GATES: Gates = Object.freeze(
  Object.fromEntries(GATES.map(({ id, allowed }) => [id, allowed])) as Record<GateId, number>,
);

const byId = new Map(GATES.map((one) => [one.id, one]));

/** The catalogue's row of an id; every id has one. */
export function gateOf(id: GateId): Gate {
  const found = byId.get(id);
  if (found === undefined) throw new RangeError(`no gate "${id}"`);
  return found;
}

// The one catalogue of gates: how much drift between two maps is allowed before a nightly run fails. Sweep files,
// the judge and every report read this table.

/** On each axis of the map. */
export type MapGateId = "pinnedSafe" | "newSustained" | "boundaryFall" | "safeShrink" | "startSafe";
/** On each gain that the sweep judges along a strip. */
export type StripGateId = "stripOwnPasses" | "stripChoicePasses" | "stripRangeFall";
export type GateId = MapGateId | StripGateId;

export interface Gate<Id extends GateId = GateId> {
  readonly id: Id;
  readonly title: string;
  /** Unit of the value and of what is allowed. */
  readonly unit: "%" | "points" | "tunes" | "gains";
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
export type AllGates = Readonly<Record<GateId, number | null>>;
/** The same of a sweep: one that asks for no strips has no gates on them. */
export type Gates = Pick<AllGates, MapGateId> & Partial<Pick<AllGates, StripGateId>>;

const gate = <Id extends GateId>(
  id: Id,
  title: string,
  unit: Gate["unit"],
  allowed: number,
  measures: string,
  why: string,
): Gate<Id> => Object.freeze({ id, title, unit, allowed, measures, why });

/** From the gravest to the mildest. */
export const MAP_GATES: readonly Gate<MapGateId>[] = Object.freeze([
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

/** From the gravest to the mildest. */
export const STRIP_GATES: readonly Gate<StripGateId>[] = Object.freeze([
  gate(
    "stripOwnPasses",
    "Model's own gain still passes",
    "gains",
    0,
    "1 where the model's own gain passed its strip and no longer does",
    "Somebody flies this gain today.",
  ),
  gate(
    "stripChoicePasses",
    "Gain to take still passes",
    "gains",
    0,
    "1 where the gain that the base's strip says to take lies outside what passes now",
    "Who set the gain of yesterday's map must be safe with it today.",
  ),
  gate(
    "stripRangeFall",
    "Range of the gain holds",
    "%",
    15,
    "fall of the upper end of what passes, where a strip reaches it on a side",
    "Wide on purpose: between two gains of a strip an end is good to some per cent, and settling jumps by half a swing.",
  ),
]);

/** Those on the map first. */
export const GATES: readonly Gate[] = Object.freeze([...MAP_GATES, ...STRIP_GATES]);

export const DEFAULT_GATES: AllGates = Object.freeze(
  Object.fromEntries(GATES.map(({ id, allowed }) => [id, allowed])) as Record<GateId, number>,
);

const byId = new Map<GateId, Gate>(GATES.map((one) => [one.id, one]));

/** The catalogue's row of an id; every id has one. */
export function gateOf(id: GateId): Gate {
  const found = byId.get(id);
  if (found === undefined) throw new RangeError(`no gate "${id}"`);
  return found;
}

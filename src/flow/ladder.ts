// The planned climb flown step by step, so that a pilot knows beforehand what each flight should show.
import { MEASURES, type MeasureId } from "../base/measures.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import { type ClimbStep, climbOf, type Rung } from "../map/climb.js";
import type { StabilityMap } from "../map/format.js";
import type { LadderManoeuvre, LadderStep, LadderTrial, LadderTune } from "../map/ladder-format.js";
import { culpritOf, tidy } from "../map/people.js";
import type { Plan, Variant } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { type FlownKind, mostTelling, sameUnder, steadyFlight } from "./manoeuvres.js";
import { type TestFlight, type TestFlights, testFlights } from "./test-flight.js";

const CLIMBING: readonly FlownKind[] = ["stop", "wobble"];
const CHECKING: readonly FlownKind[] = ["stop", "wobble", "blip"];

/** The map with the climb to its starting tunes, every step flown; as it was where no axis has one. */
export function withLadder(plan: Plan, map: StabilityMap): StabilityMap {
  const climb = climbOf(map.axes);
  const top = climb.at(-1)?.rungs;
  if (top === undefined) return map;
  const charges = plan.conditions.map(({ condition }) => condition.charge);
  const [fresh, tired] = [charges.indexOf(Math.max(...charges)), charges.indexOf(Math.min(...charges))];
  const logbook = logbookOf(plan, fresh, top);
  const orders: Order[] = [
    ...climb.map((step) => ({ ...step, condition: fresh, kinds: CLIMBING })),
    ...CHECKING.map((kind) => ({ stage: "check" as const, rungs: top, condition: tired, kinds: [kind] })),
  ];
  const steps = orders.map((order) => flown(logbook, order)).filter(({ axes }) => Object.keys(axes).length > 0);
  return { ...map, ladder: { manoeuvres: logbook.manoeuvres, steps } };
}

/** One step to fly: what, at which gains, on which pack. */
interface Order extends Pick<LadderStep, "stage">, Pick<ClimbStep, "rungs"> {
  readonly condition: number;
  readonly kinds: readonly FlownKind[];
}

/** Everything flights need, and the manoeuvres flown so far. */
interface Logbook {
  readonly plan: Plan;
  readonly flights: TestFlights;
  /** The variant that shows a kind best on an axis. */
  readonly best: (axis: Axis, kind: FlownKind) => Variant | null;
  readonly manoeuvres: LadderManoeuvre[];
  readonly places: Map<number, number>; // variant index to manoeuvre
}

function logbookOf(plan: Plan, fresh: number, top: ClimbStep["rungs"]): Logbook {
  const flights = testFlights(plan);
  const chosen = new Map<string, Variant | null>();
  for (const [axis, rung] of rungsOf(top))
    for (const kind of CHECKING)
      chosen.set(`${axis} ${kind}`, mostTelling(plan, flights, { axis, condition: fresh, kind }, si(rung)));
  const best = (axis: Axis, kind: FlownKind) => chosen.get(`${axis} ${kind}`) ?? null;
  return { plan, flights, best, manoeuvres: [], places: new Map() };
}

const rungsOf = (rungs: ClimbStep["rungs"]) => Object.entries(rungs) as [Axis, Rung][];
const si = ({ p, d }: Rung) => ({ p: p * P_UNIT, d: d * D_UNIT });

function flown(logbook: Logbook, { stage, rungs, condition, kinds }: Order): LadderStep {
  const tunes = rungsOf(rungs).map(([axis, rung]) => [axis, tuneOf(logbook, axis, rung, condition, kinds)] as const);
  return {
    stage,
    condition: logbook.plan.conditions[condition].condition.name,
    axes: Object.fromEntries(tunes.filter(([, tune]) => tune !== null)),
  };
}

/** Null where nothing can be flown, or where a flight's oscillation would not die out: nobody is sent there. */
function tuneOf(
  logbook: Logbook,
  axis: Axis,
  rung: Rung,
  condition: number,
  kinds: readonly FlownKind[],
): LadderTune | null {
  const { plan, flights, best } = logbook;
  const variants = kinds.flatMap((kind) => {
    const variant = best(axis, kind);
    return (variant === null ? null : sameUnder(plan, variant, condition)) ?? [];
  });
  const { p, d } = si(rung);
  const seen = variants.map((variant) => ({ variant, flight: flights.fly(variant, p, d) }));
  if (seen.length === 0 || seen.some(({ flight }) => !flight.diesOut)) return null;
  const steady = steadyFlight(plan, axis, condition);
  const noise = steady === null ? [] : [flights.fly(steady, p, d)];
  const { scale } = plan.airframe.controller;
  return {
    ...rung,
    own: scale === null ? null : { p: tidy(p / scale.p), d: tidy(d / scale.d) },
    trials: seen.map(({ variant, flight }): LadderTrial => {
      const { rate, angle } = flight;
      return { manoeuvre: manoeuvreOf(logbook, variant), rate, angle };
    }),
    measures: shownBy([...seen.map(({ flight }) => flight), ...noise]),
  };
}

/** Each measure from the first flight that shows it. */
function shownBy(flights: readonly TestFlight[]): LadderTune["measures"] {
  const value = (id: MeasureId) =>
    flights.map(({ measures }) => measures[id] ?? null).find((one) => one !== null) ?? null;
  return Object.fromEntries(MEASURES.map(({ id }) => [id, value(id)]));
}

function manoeuvreOf({ plan, flights, manoeuvres, places }: Logbook, variant: Variant): number {
  const known = places.get(variant.index);
  if (known !== undefined) return known;
  const { script, axis } = variant;
  const kind = script.kind as FlownKind;
  places.set(variant.index, manoeuvres.length);
  return (
    manoeuvres.push({ ...culpritOf(plan, variant), kind, title: script.title, axis, ...flights.shown(variant) }) - 1
  );
}

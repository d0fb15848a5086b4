// The numbers in which the plans of draws differ from the plan of the model as it is written: with them any trial of a draw can
// be simulated again. Most places change alike in every draw, or not at all; each column of numbers is written once.
import type { Plan } from "../plan/plan.js";

export interface DrawnNumbers {
  /** Per column where it stands: keys of {airframe, conditions, variants}, joined by full stops. */
  readonly places: readonly (readonly string[])[];
  /** [draw][column], SI. */
  readonly values: readonly (readonly number[])[];
}

type Leaves = ReadonlyMap<string, number>;

/** Null where a draw is built otherwise than the model, so that numbers alone do not make one of the other. */
export function drawnNumbers(plan: Plan, draws: readonly Plan[]): DrawnNumbers | null {
  const written = leavesOf(plan);
  const drawn = draws.map(leavesOf);
  if (drawn.some((leaves) => leaves.size !== written.size || [...written.keys()].some((key) => !leaves.has(key))))
    return null;
  const columns = new Map<string, { readonly places: string[]; readonly values: readonly number[] }>();
  for (const [place, number] of written) {
    const values = drawn.map((leaves) => leaves.get(place) ?? Number.NaN);
    if (values.every((value) => value === number)) continue;
    const key = values.join(" ");
    const column = columns.get(key) ?? { places: [], values };
    column.places.push(place);
    columns.set(key, column);
  }
  const found = [...columns.values()];
  return {
    places: found.map(({ places }) => places),
    values: draws.map((_, k) => found.map(({ values }) => values[k] ?? 0)),
  };
}

/** Every number that simulating a trial reads, by its place. */
function leavesOf({ airframe, conditions, variants }: Plan): Leaves {
  const { spreads: _, correlations: __, ...model } = airframe;
  const leaves = new Map<string, number>();
  const add = (value: unknown, place: string): void => {
    if (typeof value === "number") leaves.set(place, value);
    else if (value !== null && typeof value === "object")
      for (const [key, inner] of Object.entries(value)) add(inner, `${place}.${key}`);
  };
  add(model, "airframe");
  for (const [k, { craft, hover }] of conditions.entries()) {
    const { airframe: ___, ...rest } = craft;
    add(rest, `conditions.${k}.craft`);
    add(hover, `conditions.${k}.hover`);
  }
  for (const [k, { throttle, trim }] of variants.entries()) add({ throttle, trim }, `variants.${k}`);
  return leaves;
}

/** The data with a draw's numbers in their places; null where one of the places is not a number there. */
export function withNumbers<T extends object>(data: T, { places, values }: DrawnNumbers, draw: number): T | null {
  const drawn = structuredClone(data);
  const row = values[draw];
  if (row === undefined) return null;
  for (const [column, of] of places.entries())
    for (const place of of) if (!putNumber(drawn, place.split("."), row[column])) return null;
  return drawn;
}

function putNumber(data: object, keys: readonly string[], value: number | undefined): boolean {
  let here: unknown = data;
  for (const key of keys.slice(0, -1)) {
    if (here === null || typeof here !== "object" || !Object.hasOwn(here, key)) return false;
    here = (here as Record<string, unknown>)[key];
  }
  const key = keys.at(-1) ?? "";
  if (value === undefined || here === null || typeof here !== "object" || !Object.hasOwn(here, key)) return false;
  const group = here as Record<string, unknown>;
  if (typeof group[key] !== "number") return false;
  group[key] = value;
  return true;
}

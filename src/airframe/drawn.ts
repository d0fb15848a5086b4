// A model with other values in place of those numbers that have a spread.
import type { Document } from "../base/document.js";
import type { Path } from "../base/problem.js";
import { type PlacedSpread, spreadsIn } from "../base/spreads-in.js";
import type { Airframe } from "./airframe.js";
import { fileFaults } from "./file-faults.js";
import { hoverFaults } from "./hover-faults.js";
import { turnedMore } from "./inertia.js";
import { resolvedAirframe } from "./resolve.js";
import { type AirframeFile, airframeSchema } from "./schema.js";

/** What is not modelled, as one more number with a spread: torque per command, everything else unchanged. */
export const LOOP_GAIN = "loop gain";

/** A size of 0: none; none either where the model has a loop gain of its own, from a fit. */
export const loopGainSpread = (size: number, file: Pick<AirframeFile, "loop_gain">): PlacedSpread[] =>
  size === 0 || file.loop_gain !== undefined
    ? []
    : [{ key: LOOP_GAIN, nominal: 1, law: "normal", size, least: 0.1, most: 10, path: [] }];

/** Every number of the model that has a spread, with its place, in the order of the schema. The document has passed it. */
export const spreadsOf = (document: Document): PlacedSpread[] => spreadsIn(airframeSchema, document.data);

export interface DrawnFile {
  readonly file: AirframeFile;
  readonly gain: number;
}

/** `values[k]` in place of the number that `spreads[k]` is of, SI. */
export function fileWith(file: AirframeFile, spreads: readonly PlacedSpread[], values: readonly number[]): DrawnFile {
  const drawn = structuredClone(file);
  let gain = 1;
  for (const [at, { key, path }] of spreads.entries()) {
    const value = values[at] ?? Number.NaN;
    if (key === LOOP_GAIN) gain = value;
    else put(drawn, path, value);
  }
  followTable(file, drawn);
  return { file: drawn, gain };
}

/** Null where no craft can have these values. */
export function airframeOf({ file, gain }: DrawnFile): Airframe | null {
  if (fileFaults(file).length > 0) return null;
  const resolved = resolvedAirframe(file);
  const airframe = { ...resolved, inertia: turnedMore(resolved.inertia, gain) };
  return hoverFaults(airframe).length > 0 ? null : airframe;
}

function put(group: unknown, path: Path, value: number): void {
  const keys = [...path];
  const last = keys.pop();
  let here = group as Record<string | number, unknown>;
  for (const key of keys) here = here[key] as Record<string | number, unknown>;
  if (last !== undefined) here[last] = value;
}

/** The rows of a propeller's table scale with its ct and cp. */
function followTable(file: AirframeFile, drawn: AirframeFile): void {
  const thrust = drawn.propeller.ct / file.propeller.ct;
  const power = drawn.propeller.cp / file.propeller.cp;
  for (const row of drawn.propeller.table ?? []) {
    if (row.ct !== undefined) row.ct *= thrust;
    row.cp *= power;
  }
}

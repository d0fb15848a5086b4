// Draws: complete models taken from the spreads of one. Draw 0, the model as it is written, is none of them.
import { type Document, problemAt } from "../base/document.js";
import { exp, ln } from "../base/elementary.js";
import { hypercubeColumn, redrawnInStratum } from "../base/latin-hypercube.js";
import { normalQuantile } from "../base/normal.js";
import { InputError, type Path } from "../base/problem.js";
import { stream, uniform } from "../base/random.js";
import type { Spread } from "../base/spread.js";
import { type PlacedSpread, spreadsIn } from "../base/spreads-in.js";
import type { Airframe } from "./airframe.js";
import { fileFaults, isPropeller } from "./file-faults.js";
import { hoverFaults } from "./hover-faults.js";
import { resolvedAirframe } from "./resolve.js";
import { type AirframeFile, airframeSchema } from "./schema.js";

/** What is not modelled, as one more number with a spread: torque per command, everything else unchanged. */
export const LOOP_GAIN = "loop gain";

export interface DrawOptions {
  readonly count: number;
  readonly seed: number;
  /** Tells one set of draws of a model from another. */
  readonly purpose: string;
  /** Expanded uncertainty of the loop gain, a fraction; 0: none. */
  readonly loopGain: number;
}

export interface Draw {
  /** Value of each spread of `Draws.spreads`, SI. */
  readonly values: readonly number[];
  readonly airframe: Airframe;
}

export interface Draws {
  readonly spreads: readonly Spread[];
  readonly draws: readonly Draw[];
  /** Draws that no craft can have, and that were drawn again; pairs of ct and cp that no propeller has are not counted. */
  readonly redrawn: number;
}

/** Attempts at one draw before the model counts as one that hardly any craft can have. */
const ATTEMPTS = 25;
const NONE_FITS =
  "hardly any craft within its spreads can be built and hover; expected at most 5 of 100 that cannot. Narrow the widest spreads";
/** Attempts within a stratum, before it counts as lying outside its key's range. */
const PLACES = 50;

/** The document has passed `parseAirframe`. `refused` says what more forbids a draw. */
export function drawsOf(
  document: Document,
  options: DrawOptions,
  refused: (one: Airframe) => boolean = () => false,
): Draws {
  const file = airframeSchema.parse(document.data);
  const spreads = [...spreadsIn(airframeSchema, document.data), ...loopGainSpread(options.loopGain)];
  const columns = spreads.map((spread) => columnOf(spread, options));
  let redrawn = 0;
  const draws = Array.from({ length: options.count }, (_, row): Draw => {
    for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
      const values = columns.map((column) => column(row, attempt));
      const drawn = fileWith(file, spreads, values);
      // Drawn apart, ct and cp often make a pair that no propeller has, though each may be: that is no fault of a spread,
      // and what is drawn again brings back that they go together.
      if (!isPropeller(drawn.file.propeller)) continue;
      const airframe = airframeOf(drawn);
      if (airframe !== null && !refused(airframe)) return { values, airframe };
      redrawn++;
    }
    throw new InputError([problemAt(document, [], NONE_FITS)]);
  });
  return { spreads: spreads.map(({ path: _, ...spread }) => spread), draws, redrawn };
}

const loopGainSpread = (size: number): PlacedSpread[] =>
  size === 0 ? [] : [{ key: LOOP_GAIN, nominal: 1, law: "normal", size, least: 0.1, most: 10, path: [] }];

/** Seeded by what is written of the number: equal in two versions of a model where that is, and independent where it is not. */
function columnOf(spread: Spread, { count, seed, purpose }: DrawOptions): (row: number, attempt: number) => number {
  const { key, nominal, law, size, least, most } = spread;
  const keys = [seed, purpose, key, nominal, law, size] as const;
  const column = hypercubeColumn(count, ...keys);
  return (row, attempt) => {
    let probability = attempt === 0 ? (column[row] ?? 0.5) : uniform(stream("again", row, attempt, ...keys));
    for (let place = 1; place < PLACES; place++) {
      const value = valueAt(spread, probability);
      if (value >= least && value <= most) return value;
      probability = redrawnInStratum(probability, count, row, place + attempt * PLACES, ...keys);
    }
    return Math.min(most, Math.max(least, valueAt(spread, probability)));
  };
}

/** The value that a share of such craft lie below. */
export function valueAt({ nominal, law, size }: Spread, probability: number): number {
  if (law === "uniform") return nominal + size * (2 * probability - 1);
  const z = normalQuantile(probability);
  return law === "normal" ? nominal + 0.5 * size * z : nominal * exp(0.5 * ln(1 + size) * z);
}

interface DrawnFile {
  readonly file: AirframeFile;
  readonly gain: number;
}

function fileWith(file: AirframeFile, spreads: readonly PlacedSpread[], values: readonly number[]): DrawnFile {
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
function airframeOf({ file, gain }: DrawnFile): Airframe | null {
  if (fileFaults(file).length > 0) return null;
  const airframe = withLoopGain(resolvedAirframe(file), gain);
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

/** Every torque turns the body by the gain more: its inertia is so much smaller. */
function withLoopGain(airframe: Airframe, gain: number): Airframe {
  const { xx, yy, zz, xy, xz, yz } = airframe.inertia;
  const inertia = { xx: xx / gain, yy: yy / gain, zz: zz / gain, xy: xy / gain, xz: xz / gain, yz: yz / gain };
  return { ...airframe, inertia };
}

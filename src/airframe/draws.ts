// Draws: complete models taken from the spreads of one. Draw 0, the model as it is written, is none of them.
import { at } from "../base/at.js";
import { type Document, problemAt } from "../base/document.js";
import { hypercubeColumn, redrawnInStratum } from "../base/latin-hypercube.js";
import { InputError } from "../base/problem.js";
import { stream, uniform } from "../base/random.js";
import type { Spread } from "../base/spread.js";
import type { PlacedSpread } from "../base/spreads-in.js";
import type { Airframe } from "./airframe.js";
import { airframeOf, fileWith, loopGainSpread, spreadsOf } from "./drawn.js";
import { isPropeller } from "./file-faults.js";
import { type AirframeFile, airframeSchema } from "./schema.js";
import { valueAt, valueAtScore } from "./spread-values.js";

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
  const file = fileOf(document);
  const spreads = [...spreadsOf(document), ...loopGainSpread(options.loopGain, file)];
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

/**
 * The model with each of its numbers at a score, a standard normal number: 0 as it is written. Null where no craft can have
 * these values, or a key's range excludes one. `spreads` are `spreadsOf(document)`, some of them, or those with
 * `loopGainSpread`; a number that is not among them stays as it is written.
 */
export function airframeAt(
  document: Document,
  spreads: readonly PlacedSpread[],
  scores: ArrayLike<number>,
): Airframe | null {
  const values = spreads.map((spread, k) => valueAtScore(spread, at(scores, k)));
  const fits = spreads.every(({ least, most }, k) => at(values, k) >= least && at(values, k) <= most);
  return fits ? airframeOf(fileWith(fileOf(document), spreads, values)) : null;
}

const files = new WeakMap<Document, AirframeFile>();

/** Checked once: the same document is asked for many draws. */
export function fileOf(document: Document): AirframeFile {
  const file = files.get(document) ?? airframeSchema.parse(document.data);
  files.set(document, file);
  return file;
}

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

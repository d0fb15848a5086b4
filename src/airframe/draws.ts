// Draws: complete models taken from the spreads of one. Draw 0, the model as it is written, is none of them.
import { at } from "../base/at.js";
import { type Document, problemAt } from "../base/document.js";
import { runThrough } from "../base/halting-work.js";
import { InputError } from "../base/problem.js";
import type { Spread } from "../base/spread.js";
import type { PlacedSpread } from "../base/spreads-in.js";
import type { Airframe } from "./airframe.js";
import { type ColumnOptions, drawnValues } from "./draw-values.js";
import { airframeOf, fileWith, loopGainSpread, spreadsOf } from "./drawn.js";
import { isPropeller } from "./file-faults.js";
import { type AirframeFile, airframeSchema } from "./schema.js";
import { valueAtScore } from "./spread-values.js";

export interface DrawOptions extends ColumnOptions {
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

/** The document has passed `parseAirframe`. `refused` says what more forbids a draw. */
export function drawsOf(document: Document, options: DrawOptions, refused?: (one: Airframe) => boolean): Draws {
  return runThrough(drawingOf(document, options, refused));
}

/** As `drawsOf`, with a halt after each draw: many take seconds. */
export function* drawingOf(
  document: Document,
  options: DrawOptions,
  refused: (one: Airframe) => boolean = () => false,
): Generator<void, Draws> {
  const file = fileOf(document);
  const spreads = [...spreadsOf(document), ...loopGainSpread(options.loopGain, file)];
  const valuesOf = drawnValues(spreads, file.correlations ?? [], options);
  let redrawn = 0;
  const drawAt = (row: number): Draw => {
    for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
      const values = valuesOf(row, attempt);
      const drawn = fileWith(file, spreads, values);
      // Drawn apart, ct and cp often make a pair that no propeller has, though each may be: that is no fault of a spread,
      // and what is drawn again brings back that they go together.
      if (!isPropeller(drawn.file.propeller)) continue;
      const airframe = airframeOf(drawn);
      if (airframe !== null && !refused(airframe)) return { values, airframe };
      redrawn++;
    }
    throw new InputError([problemAt(document, [], NONE_FITS)]);
  };
  const draws: Draw[] = [];
  for (let row = 0; row < options.count; row++) {
    draws.push(drawAt(row));
    yield;
  }
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

// A fit as `gainscape fit` would write it, for the page: the shipped Sandpiper before, the same file with a few of its numbers
// moved and narrowed after. Who moved them is invented; everything that follows from them (shapes, bands, responses, shares,
// what is predicted) is computed from the two texts by the project's own theory, so the numbers go together.
import { readFileSync } from "node:fs";
import type { Airframe } from "../../../src/airframe/airframe.js";
import { craftUnder, STANDARD_DAY } from "../../../src/airframe/craft.js";
import { drawsOf } from "../../../src/airframe/draws.js";
import type { Trim } from "../../../src/airframe/powered.js";
import { parseAirframe } from "../../../src/airframe/resolve.js";
import { valueAt } from "../../../src/airframe/spread-values.js";
import { hoverTrim, trimAt } from "../../../src/airframe/trim.js";
import { digestOf } from "../../../src/base/digest.js";
import type { Document } from "../../../src/base/document.js";
import { boxMuller, stream, uniform } from "../../../src/base/random.js";
import type { Spread } from "../../../src/base/spread.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../../src/base/units.js";
import { quantileOf } from "../../../src/confidence/at-start.js";
import { readYaml } from "../../../src/files/yaml.js";
import {
  type Estimated,
  FIT_FORMAT,
  type FitFile,
  type FittedAxis,
  type FittedNumber,
  type FittedShape,
  type KeptOut,
  type ResponseOfAxis,
} from "../../../src/fit/format.js";
import { tuneCall } from "../../../src/fit/tune-call.js";
import { usefulFirst } from "../../../src/map/useful.js";
import { sheetOf } from "../../../src/sheet/sheet.js";
import { authorityAt } from "../../../src/theory/authority.js";
import { coarsePieces } from "../../../src/theory/axis-pieces.js";
import { stableIntervals } from "../../../src/theory/boundary.js";
import type { ComplexArray } from "../../../src/theory/frequency.js";
import { type GainsByAxis, plantResponse } from "../../../src/theory/plant.js";
import { haveMargins } from "../../../src/theory/wanted-margins.js";

import { madeOnce } from "../../fixtures/made-once.js";

type Axis = "roll" | "pitch";

const BEFORE = "models/sandpiper-r1.yaml";
/** Written number, fitted number. */
type Moves = readonly (readonly [string, string])[];

/** A craft that turns more than its model. */
const STRONGER: Moves = [
  ["ct: 0.156 ± 8 %", "ct: 0.163 ± 2 %"],
  ["resistance: 75 mohm ± 30 %", "resistance: 70 mohm ± 4 %"],
  ["latency: 0.75 ms ± 10 %", "latency: 0.79 ms ± 3 %"],
  ["inertia: 4.2e-6 kg m^2 ± 15 %", "inertia: 4.1e-6 kg m^2 ± 5 %"],
  ["kv: 1950 rpm/V ± 4 %", "kv: 1960 rpm/V ± 2 %"],
  ["bell_inertia: 2.6e-6 kg m^2 ± 20 %", "bell_inertia: 2.5e-6 kg m^2 ± 7 %"],
  ["noise: 0.01 deg/s/sqrt(Hz) ± 30 %", "noise: 0.0124 deg/s/sqrt(Hz) ± 4 %"],
  ["rms: 16 % ± 4 %", "rms: 18.2 % ± 1.6 %"],
  ["at: [-4 mm ± 4 mm, 0 mm, 46 mm ± 3 mm]", "at: [-5.6 mm ± 1.5 mm, 0 mm, 46 mm ± 3 mm]"],
  ["harmonic: 1, at_hover: 0.8 deg/s ± 30 %", "harmonic: 1, at_hover: 1.05 deg/s ± 8 %"],
];
/** One that is as its model says, a little quicker in its loop. */
const AS_SAID: Moves = [
  ["ct: 0.156 ± 8 %", "ct: 0.155 ± 3 %"],
  ["resistance: 75 mohm ± 30 %", "resistance: 74 mohm ± 9 %"],
  ["latency: 0.75 ms ± 10 %", "latency: 0.72 ms ± 3 %"],
];
const UNITS: Readonly<Record<string, string>> = {
  "motor.resistance": "mohm",
  "propeller.inertia": "kg m^2",
  "motor.bell_inertia": "kg m^2",
  "sensing.noise": "deg/s/sqrt(Hz)",
  "controller.latency": "ms",
};
const DRAWS = 64;
/** The loop gain's own spread, which a fit narrows too. */
const LOOP_GAIN = Object.freeze({ before: 0.1, after: 0.02 });
const DEGREES = 180 / Math.PI;

/** P and D of the tune that was flown, in display units. */
const FLOWN = Object.freeze({ roll: { p: 10, d: 1.4 }, pitch: { p: 13, d: 1.6 } });

interface Side {
  readonly document: Document;
  readonly airframe: Airframe;
  readonly draws: readonly Airframe[];
}

function side(text: string, loopGain: number): Side {
  const document = readYaml(BEFORE, text);
  const airframe = parseAirframe(document);
  const { draws } = drawsOf(document, { count: DRAWS, seed: 1, purpose: "fit page", loopGain });
  return { document, airframe, draws: draws.map((draw) => draw.airframe) };
}

const places = (airframe: Airframe) => {
  const craft = craftUnder(airframe, STANDARD_DAY);
  return { craft, trims: [hoverTrim(craft), trimAt(craft, 0.7)].filter((trim) => trim !== null) as Trim[] };
};

const HOLDING: GainsByAxis = {
  roll: { p: 12 * P_UNIT, i: 25 * I_UNIT, d: 1.5 * D_UNIT },
  pitch: { p: 14 * P_UNIT, i: 25 * I_UNIT, d: 1.7 * D_UNIT },
  yaw: { p: 30 * P_UNIT, i: 30 * I_UNIT, d: 0 },
};
const D_LINES = [0, 0.4, 0.8, 1.2, 1.6, 2, 2.4, 2.8];
const RANGE = { from: 1 * P_UNIT, to: 160 * P_UNIT };

const quantiles = (values: readonly (number | null)[]): Estimated => ({
  middle: quantileOf(values, 0.5) ?? 0,
  low: quantileOf(values, 0.025) ?? 0,
  high: quantileOf(values, 0.975) ?? 0,
});

function ofDraw(airframe: Airframe) {
  const { craft, trims } = places(airframe);
  const pieces = trims.map((trim) => coarsePieces(craft, trim));
  const loops = (axis: Axis) => pieces.map((of) => of(axis, HOLDING));
  const made = { roll: loops("roll"), pitch: loops("pitch") };
  const hover = trims[0] as Trim;
  const sheet = sheetOf(airframe);
  return {
    boundary: (axis: Axis, d: number): number | null => {
      const ends = made[axis].map(
        (loop) => usefulFirst(stableIntervals(loop, d * D_UNIT, HOLDING[axis].i, RANGE))[0]?.to ?? RANGE.from,
      );
      const lowest = Math.min(...ends);
      return lowest < RANGE.to ? lowest / P_UNIT : null;
    },
    safe: (axis: Axis, { p, d }: { p: number; d: number }): boolean =>
      haveMargins(made[axis], [{ p: p * P_UNIT, i: HOLDING[axis].i, d: d * D_UNIT }], {
        gain: 6,
        phase: Math.PI / 4,
      })[0] === 1,
    authority: authorityAt(craft, hover),
    lag: sheet.hover.motorLagMs / 1000,
    delay: (sheet.delaySumMs.p - sheet.hover.motorLagMs) / 1000,
  };
}

type DrawOf = ReturnType<typeof ofDraw>;

function shape(axis: Axis, draws: readonly DrawOf[]): FittedShape {
  const authority = draws.map((draw) => draw.authority[axis]);
  const lag = draws.map((draw) => draw.lag);
  return {
    authority: quantiles(authority),
    lag: quantiles(lag),
    delay: quantiles(draws.map((draw) => draw.delay)),
    authorityOverLag: quantiles(draws.map((draw) => draw.authority[axis] / draw.lag)),
    correlationOfAuthorityAndLag: correlation(authority, lag),
  };
}

function correlation(one: readonly number[], other: readonly number[]): number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [a, b] = [mean(one), mean(other)];
  const product = (x: readonly number[], xm: number, y: readonly number[], ym: number) =>
    x.reduce((sum, value, k) => sum + (value - xm) * ((y[k] as number) - ym), 0);
  return product(one, a, other, b) / Math.sqrt(product(one, a, one, a) * product(other, b, other, b));
}

const band = (axis: Axis, draws: readonly DrawOf[]) =>
  D_LINES.map((d) => {
    const values = draws.map((draw) => draw.boundary(axis, d));
    return { d, low: quantileOf(values, 0.05), middle: quantileOf(values, 0.5), high: quantileOf(values, 0.95) };
  });

function responseAt(airframe: Airframe, axis: Axis, hertz: readonly number[]): ComplexArray {
  const { craft, trims } = places(airframe);
  return plantResponse(craft, trims[0] as Trim, axis, HOLDING)(Float64Array.from(hertz, (one) => 2 * Math.PI * one));
}

/** Amplitude and phase without jumps, the phase of the first frequency between -180 and 180 deg. */
function polar({ re, im }: ComplexArray) {
  const amplitude = Array.from(re, (value, k) => Math.hypot(value, im[k] as number));
  const phase_deg: number[] = [];
  for (let k = 0; k < re.length; k++) {
    const turn = DEGREES * Math.atan2(im[k] as number, re[k] as number);
    const last = phase_deg[k - 1] ?? turn;
    phase_deg.push(turn - 360 * Math.round((turn - last) / 360));
  }
  return { amplitude, phase_deg };
}

const FREQUENCIES = Array.from({ length: 46 }, (_, k) => 1.5 * (40 / 1.5) ** (k / 45));
const WINDOWS = 36;

/** Sticks say much in the middle of the band and little at its ends. */
const coherenceAt = (hertz: number): number => 0.97 / ((1 + (1.7 / hertz) ** 4) * (1 + (hertz / 24) ** 5));

function response(axis: Axis, before: Airframe, after: Airframe): ResponseOfAxis {
  const coherence = FREQUENCIES.map(coherenceAt);
  // Bendat and Piersol's error of a frequency response from independent windows
  const error = coherence.map((one) => Math.sqrt((1 - one) / (2 * one * WINDOWS)));
  const fitted = polar(responseAt(after, axis, FREQUENCIES));
  const source = stream("fit page", axis);
  const noise = FREQUENCIES.map(() => boxMuller(uniform(source), uniform(source)));
  return {
    frequency_Hz: FREQUENCIES,
    coherence,
    error,
    measured: {
      amplitude: fitted.amplitude.map((value, k) => value * (1 + (error[k] as number) * (noise[k]?.[0] ?? 0))),
      phase_deg: fitted.phase_deg.map((value, k) => value + DEGREES * (error[k] as number) * (noise[k]?.[1] ?? 0)),
    },
    before: polar(responseAt(before, axis, FREQUENCIES)),
    after: fitted,
    misfit: axis === "roll" ? 1.21 : 0.94,
    notModelled:
      axis === "pitch"
        ? [
            {
              frequency_Hz: 31,
              text: "a resonance that the theory lacks, 1.4 times the fitted amplitude: a soft mount or a loose arm?",
            },
          ]
        : [],
  };
}

/** Sticks as a sum of sines, the rate that each craft makes of them by its response. */
function keptOut(axis: Axis, before: Airframe, after: Airframe): KeptOut {
  const source = stream("kept out", axis);
  const lines = Array.from({ length: 28 }, (_, k) => ({
    hertz: 0.7 * 1.135 ** k,
    size: (0.0016 * (1 + k)) / (1 + (k / 16) ** 4),
    turn: 2 * Math.PI * uniform(source),
  }));
  const hertz = lines.map((one) => one.hertz);
  const time_s = Array.from({ length: 500 }, (_, k) => 48 + k / 100);
  const of = (airframe: Airframe) => {
    const { amplitude, phase_deg } = polar(responseAt(airframe, axis, hertz));
    return time_s.map((t) =>
      lines.reduce(
        (sum, { hertz: f, size, turn }, k) =>
          sum +
          DEGREES *
            size *
            (amplitude[k] as number) *
            Math.sin(2 * Math.PI * f * t + turn + (phase_deg[k] as number) / DEGREES),
        0,
      ),
    );
  };
  const [old, predicted_dps] = [of(before), of(after)];
  const size = Math.sqrt(predicted_dps.reduce((sum, value) => sum + value * value, 0) / time_s.length);
  const measured_dps = predicted_dps.map(
    (value) => value + 0.3 * size * boxMuller(uniform(source), uniform(source))[0],
  );
  const smooth = measured_dps.map((_, k) => {
    const near = measured_dps.slice(Math.max(0, k - 1), k + 2);
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  });
  const explained = (prediction: readonly number[]) => {
    const off = smooth.reduce((sum, value, k) => sum + (value - (prediction[k] as number)) ** 2, 0);
    return 1 - off / smooth.reduce((sum, value) => sum + value * value, 0);
  };
  return {
    from_s: 48,
    to_s: 53,
    explainedBefore: explained(old),
    explained: explained(predicted_dps),
    time_s,
    measured_dps: smooth,
    predicted_dps,
  };
}

function fittedNumbers(before: Airframe, after: Airframe): FittedNumber[] {
  const estimated = (spread: Spread): Estimated => ({
    middle: spread.nominal,
    low: valueAt(spread, 0.0228),
    high: valueAt(spread, 0.9772),
  });
  return (before.spreads ?? []).map((spread): FittedNumber => {
    const now = (after.spreads ?? []).find(({ key }) => key === spread.key) ?? spread;
    const unit = UNITS[spread.key];
    const [was, is] = [estimated(spread), estimated(now)];
    return {
      key: spread.key,
      ...(unit === undefined ? {} : { unit }),
      before: was,
      after: is,
      learnt: 1 - (is.high - is.low) / (was.high - was.low),
    };
  });
}

function made(moves: Moves): FitFile {
  const text = readFileSync(BEFORE, "utf8");
  const fitted = moves.reduce((whole, [from, to]) => {
    if (!whole.includes(from)) throw new Error(`${BEFORE} no longer has "${from}"`);
    return whole.replace(from, to);
  }, text);
  const [was, is] = [side(text, LOOP_GAIN.before), side(fitted, LOOP_GAIN.after)];
  const [before, after] = [was.draws.map(ofDraw), is.draws.map(ofDraw)];
  const axis = (name: Axis): FittedAxis => {
    const bands = { before: band(name, before), after: band(name, after) };
    const share = (draws: readonly DrawOf[]) => draws.filter((draw) => draw.safe(name, FLOWN[name])).length / DRAWS;
    const [safeShareBefore, safeShareAfter] = [share(before), share(after)];
    const { p, d } = FLOWN[name];
    return {
      before: shape(name, before),
      after: shape(name, after),
      response: response(name, was.airframe, is.airframe),
      keptOut: keptOut(name, was.airframe, is.airframe),
      band: bands,
      tune: {
        p,
        d,
        own: { p: p / 0.2, d: d / 0.02 },
        safeShareBefore,
        safeShareAfter,
        draws: DRAWS,
        call: tuneCall({ d, safeShareBefore, safeShareAfter }, bands, 0.95),
      },
    };
  };
  const axes = { roll: axis("roll"), pitch: axis("pitch") };
  const ends = axes.roll.tune?.call === "do not fly" || axes.pitch.tune?.call === "do not fly";
  return {
    format: FIT_FORMAT,
    productVersion: "0.1.0",
    model: { name: was.airframe.name, version: was.airframe.version, digest: digestOf(text) },
    flights: [
      {
        file: "models/flights/meadow-2.yaml",
        title: "Second pack over the meadow",
        date: "2026-05-14",
        digest: digestOf(fitted),
      },
    ],
    numbers: fittedNumbers(was.airframe, is.airframe),
    correlations: [
      { one: "propeller.ct", other: "motor.resistance", value: 0.71 },
      { one: "motor.resistance", other: "propeller.inertia", value: -0.58 },
      { one: "propeller.ct", other: "controller.latency", value: 0.12 },
    ],
    axes,
    units: [
      {
        gain: "p",
        set: "own",
        axes: ["roll", "pitch"],
        value: around(0.21 * P_UNIT, 0.03),
        why: "From 36 windows; the same on both axes within its spread.",
      },
      {
        gain: "i",
        set: "own",
        axes: ["roll", "pitch"],
        value: around(0.098 * I_UNIT, 0.11),
        why: "The integral moved little in this log.",
      },
      {
        gain: "d",
        set: "own",
        axes: ["roll", "pitch"],
        value: around(0.0203 * D_UNIT, 0.16),
        why: "The log is slower than the loop (1 kHz against 4 kHz), which widens it.",
      },
      { gain: "p", set: "own", axes: ["yaw"], value: null, why: "Yaw was hardly commanded." },
    ],
    silent: [
      { what: "Mass and thrust apart", why: "A log fixes their ratio alone; weigh the craft." },
      { what: "Motor resistance apart from pack voltage", why: "The log has no column of voltage." },
    ],
    remarks: [
      { file: "meadow-2.csv", row: 18_204, column: "time_us", text: "The clock jumps by 41 ms; the log is cut here." },
      { file: "meadow-2.csv", row: 22_010, column: "m3", text: "Saturated for 120 ms; these windows are left out." },
      { file: "meadow-2.csv", row: null, column: "gyro_z", text: "Moves too little to tell anything of yaw." },
    ],
    sightings: [
      { text: "Hovers at 31 % ± 2 % throttle", before: "28 to 35 %", after: "29.5 to 32 %" },
      {
        text: "Roll at P 240, D 8: died out after a hard stop",
        before: "dies out in 64 of 64 draws",
        after: "dies out in 64 of 64 draws",
      },
    ],
    next: [
      {
        text: "Ten seconds of quick roll moves at 60 % throttle, at the gains of ladder step 3, high and clear.",
        key: "controller.latency",
        narrows: 0.5,
      },
      { text: "Log the pack's voltage.", key: "motor.resistance", narrows: 0.3 },
    ],
    advice: ends
      ? [
          "Simulate the fitted model and climb its ladder again from the first step.",
          "The old gains stay written down for no other use.",
        ]
      : ["The tune may stay as it is.", "Simulate the fitted model for a new map before you raise a gain."],
    command: "gainscape fit models/flights/meadow-2.yaml --out models/sandpiper-r1b.yaml",
  };
}

const around = (middle: number, share: number): Estimated => ({
  middle,
  low: middle * (1 - share),
  high: middle * (1 + share),
});

const stored = async (name: string, moves: Moves): Promise<FitFile> =>
  JSON.parse(await madeOnce(`fit-${name}.json`, async () => JSON.stringify(made(moves)))) as FitFile;

/** A fit that ends the tune that was flown. */
export const endingFit = (): Promise<FitFile> => stored("ending", STRONGER);
/** A fit in which it holds. */
export const holdingFit = (): Promise<FitFile> => stored("holding", AS_SAID);

// What GNU Octave computes and how closely it must agree; the test asserts these, the documents print them.

export const RANDOM = 200; // seeded craft of four to eight rotors, built askew

export const TOLERANCES = Object.freeze({
  poles: 1e-6, // distance in the z-plane
  radius: 1e-8, // of the pole furthest out
  gain: 2e-6, // dB
  phase: 2e-5, // degrees
  coefficients: 1e-12,
  coarseStep: 2e-3, // share of the step
  fineStep: 5e-5,
  coarseTrial: 1e-3, // share of the commanded rate
  fineTrial: 1e-5,
  openLoopTrial: 1e-6, // share of each state
});

export type OctaveQuestion = keyof typeof TOLERANCES;

interface Question {
  readonly quantity: string;
  readonly by: string;
  readonly unit: string;
  /** Units per one of the tolerance's own. */
  readonly scale: number;
}

const question = (quantity: string, by: string, unit: string, scale = 1): Question => ({ quantity, by, unit, scale });

/** The same in words, in the order of the document. */
export const ASKED: Readonly<Record<OctaveQuestion, Question>> = {
  poles: question(
    `poles of every shipped model fresh and tired, and of ${RANDOM} random craft`,
    "`c2d`, `eig`",
    " in the z-plane",
  ),
  radius: question("distance of the outermost pole from the origin, the same loops", "`c2d`, `eig`", ""),
  gain: question("gain margins of roll and pitch of those loops, both ways", "`c2d`, `fzero`", " dB"),
  phase: question("phase margins of roll and pitch of those loops", "`c2d`, `fzero`", " deg"),
  coefficients: question("coefficients of sixty low-pass stages and forty notches", "`butter`", ""),
  coarseStep: question(
    "response to a small step, every shipped model, one late by 3.6 periods and one with notches: one physics step a period",
    "linear loop, `c2d`",
    " % of the step",
    100,
  ),
  fineStep: question("the same, sixteen physics steps", "linear loop, `c2d`", " % of the step", 100),
  coarseTrial: question(
    "nine whole trials into the limits: one physics step a period",
    "`lsode`",
    " % of the commanded rate",
    100,
  ),
  fineTrial: question("the same trials, sixteen physics steps", "`lsode`", " % of the commanded rate", 100),
  openLoopTrial: question("an open-loop trial about all axes", "`ode45`", " % of each state", 100),
};

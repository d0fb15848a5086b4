// What is asked of GNU Octave and how closely it must agree; the test asserts these, the documents print them.

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
  flight: 1e-6, // share of each state
});

const t = TOLERANCES;

/** The same in words: quantity, by which reference, tolerance. */
export const ASKED: readonly (readonly [quantity: string, by: string, tolerance: string])[] = [
  [
    `poles of every shipped model fresh and tired, and of ${RANDOM} random craft`,
    "`c2d`, `eig`",
    `${t.poles} in the z-plane`,
  ],
  ["distance of the outermost pole from the origin, the same loops", "`c2d`, `eig`", `${t.radius}`],
  ["gain margins of roll and pitch of those loops, both ways", "`c2d`, `fzero`", `${t.gain} dB`],
  ["phase margins of roll and pitch of those loops", "`c2d`, `fzero`", `${t.phase} deg`],
  ["coefficients of sixty low-pass stages", "`butter`", `${t.coefficients}`],
  [
    "response to a small step, every shipped model: one physics step a period",
    "linear loop, `c2d`",
    `${100 * t.coarseStep} % of the step`,
  ],
  ["the same, sixteen physics steps", "linear loop, `c2d`", `${100 * t.fineStep} % of the step`],
  [
    "two whole trials into the limits: one physics step a period",
    "`lsode`",
    `${100 * t.coarseTrial} % of the commanded rate`,
  ],
  ["the same, sixteen physics steps", "`lsode`", `${100 * t.fineTrial} % of the commanded rate`],
  ["an open-loop flight about all axes", "`ode45`", `${100 * t.flight} % of each state`],
];

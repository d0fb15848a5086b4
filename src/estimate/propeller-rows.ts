// Static wind-tunnel rows of small propellers: J.B. Brandt, R.W. Deters, G.K. Ananda, O.D. Dantsker and
// M.S. Selig, UIUC Propeller Database vol. 1-3, University of Illinois (seen in a stored copy of the data).
// The fastest row of the first run of each.

/** One propeller's static coefficients, as measured. */
export interface PropellerRow {
  readonly inches: number;
  readonly pitchInches: number;
  readonly blades: number;
  readonly ct: number;
  readonly cp: number;
  /** Rows of one blade on hubs for two, three and four share a number: they are one propeller to whoever leaves it out. */
  readonly blade: number;
}

type Row = readonly [blade: number, inches: number, pitch: number, blades: number, ct: number, cp: number];

const ROWS: readonly Row[] = [
  [1, 2.5, 0.8, 2, 0.0601, 0.0262],
  [2, 3, 2, 2, 0.1379, 0.0687],
  [3, 3.2, 2.2, 2, 0.1258, 0.0599],
  [4, 4, 2.5, 2, 0.1281, 0.059],
  [5, 4, 4, 2, 0.171, 0.1286],
  [6, 4, 2.7, 2, 0.1108, 0.0658],
  [7, 4.2, 4, 2, 0.1292, 0.107],
  [8, 4.2, 2, 2, 0.0903, 0.0417],
  [9, 4.5, 3, 2, 0.1221, 0.057],
  [10, 4.5, 4, 2, 0.1561, 0.0852],
  [11, 5, 3, 2, 0.1124, 0.0447],
  [12, 5, 4.3, 2, 0.162, 0.1033],
  [13, 5, 3.5, 2, 0.1118, 0.0471],
  [14, 5, 4, 2, 0.1836, 0.1211],
  [15, 5, 1.58, 2, 0.0859, 0.0383],
  [16, 5, 2.65, 2, 0.1036, 0.0585],
  [17, 5, 3.75, 2, 0.129, 0.0926],
  [18, 5, 4.92, 2, 0.1485, 0.1475],
  [19, 5, 3.75, 2, 0.1175, 0.0732],
  [19, 5, 3.75, 3, 0.1493, 0.0945],
  [19, 5, 3.75, 4, 0.1746, 0.114],
  [20, 5, 3.16, 2, 0.0921, 0.0469],
  [20, 5, 3.16, 3, 0.122, 0.0614],
  [21, 140 / 25.4, 45 / 25.4, 2, 0.0674, 0.0223],
  [22, 7, 4, 2, 0.0879, 0.0392],
  [23, 8, 4, 2, 0.0946, 0.0366],
  [24, 8, 3.8, 2, 0.1143, 0.0481],
  [25, 8, 6, 2, 0.157, 0.0923],
  [26, 8, 4, 2, 0.0978, 0.0401],
  [27, 8, 6, 2, 0.1181, 0.076],
  [28, 8, 4.3, 2, 0.1114, 0.0437],
  [29, 8.5, 6, 2, 0.1144, 0.0505],
  [30, 9, 4.5, 2, 0.1012, 0.0392],
  [31, 9, 4.7, 2, 0.1199, 0.0483],
  [32, 9, 6.75, 2, 0.1404, 0.0801],
  [33, 9, 4, 2, 0.0876, 0.0306],
  [34, 10, 5, 2, 0.0994, 0.0379],
  [35, 10, 4.7, 2, 0.1299, 0.0531],
  [36, 10, 7, 2, 0.1606, 0.0797],
  [37, 10, 4, 2, 0.0806, 0.0231],
];

export const PROPELLER_ROWS: readonly PropellerRow[] = Object.freeze(
  ROWS.map(([blade, inches, pitchInches, blades, ct, cp]) =>
    Object.freeze({ inches, pitchInches, blades, ct, cp, blade }),
  ),
);

/** A run against the wind: where thrust vanishes, and where its fall near hover points to. */
export interface AdvanceRun {
  readonly inches: number;
  readonly pitchInches: number;
  /** Advance ratio at which the measured ct crosses 0. */
  readonly vanishes: number;
  /** Rows near hover, J up to 0.4. */
  readonly near: readonly (readonly [j: number, ct: number])[];
  readonly ctStatic: number;
}

// The same database: 5.0x4.3 at 6047 rpm (vol. 2) and 8.0x3.8 at 4007 rpm (vol. 1); the crossing between two rows, in a
// straight line. ct at rest: the two rows next to it extended; the static row of about that speed.
export const ADVANCE_RUNS: readonly AdvanceRun[] = Object.freeze([
  {
    inches: 5,
    pitchInches: 4.3,
    vanishes: 0.7978,
    near: [
      [0.0947, 0.1445],
      [0.1923, 0.1331],
      [0.2818, 0.1168],
      [0.3775, 0.0972],
    ],
    ctStatic: 0.156,
  },
  {
    inches: 8,
    pitchInches: 3.8,
    vanishes: 0.637,
    near: [
      [0.174, 0.0828],
      [0.307, 0.0644],
    ],
    ctStatic: 0.099,
  },
]);

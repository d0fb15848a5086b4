// The theory part of map.json: the boundary of the linearised loop at every throttle level and condition, how the
// simulated one agrees with it, and which parameters of the model move it most. Gains in display units.

/** Place of the gain plane on the boundary, with the frequency of the oscillation that stands there. */
export type CurvePoint = readonly [d: number, p: number, hertz: number];

/** The loop at one throttle level under one condition. */
export interface TheoryLoop {
  readonly throttle: number; // %
  readonly condition: string;
  /** Where stable meets unstable within the swept range: lines, simplified for drawing. */
  readonly curve: readonly (readonly CurvePoint[])[];
  /** Per D of the grid the stable P ranges; null: the edge of the swept range. */
  readonly perD: readonly (readonly (readonly [from: number | null, to: number | null])[])[];
}

/** An end of a stable P range as theory and trials have it; null: one of them has none there. */
export interface ComparedEnd {
  readonly throttle: number; // %
  readonly condition: string;
  readonly d: number;
  readonly theory: number | null; // P
  readonly simulated: number | null; // P
  /** Simulated over theoretical less one, %; null where one of them is missing. */
  readonly difference: number | null;
}

export interface Agreement {
  /** The script whose boundary is compared: a small nudge in still air. */
  readonly script: string;
  /** Ends of stable ranges that were compared. */
  readonly ends: number;
  /** Middle of the differences without sign, %; null where nothing was compared. */
  readonly median: number | null;
  readonly worst: ComparedEnd | null;
  /** %, beyond which an end is listed as a disagreement. */
  readonly tolerance: number;
  readonly disagreements: readonly ComparedEnd[];
}

/** What the loop's own time step does to the boundary against a loop stepped exactly; `theory` is the exact one. */
export type StepEffect = ComparedEnd;

export interface ParameterEffect {
  /** Key of the model file. */
  readonly key: string;
  readonly title: string;
  /** Change of the boundary's P, %, with the parameter 10 % more and 10 % less, all else unchanged; null: there is no boundary near here any more. */
  readonly more: number | null;
  readonly less: number | null;
}

export interface Sensitivity {
  readonly d: number;
  readonly p: number; // where the oscillation sets in at this D by theory
  readonly throttle: number; // %
  readonly condition: string;
  /** The strongest first. */
  readonly effects: readonly ParameterEffect[];
}

/** How the attitude follows the sticks at the starting tune, by theory after ADS-33E-PRF: the slowest of all loops. */
export interface AttitudeFollowing {
  readonly bandwidth: number; // Hz
  /** ms; null: no loop's phase could be followed far enough. */
  readonly phaseDelay: number | null;
}

export interface TheoryBoundary {
  readonly loops: readonly TheoryLoop[];
  /** Null: the sweep has no small nudge in still air. */
  readonly agreement: Agreement | null;
  readonly step: StepEffect | null;
  /** Null: theory finds no P at which this axis gives out. */
  readonly sensitivity: Sensitivity | null;
  /** Null: no starting tune, or a phase that never turns round. Older maps lack it. */
  readonly attitude?: AttitudeFollowing | null;
}

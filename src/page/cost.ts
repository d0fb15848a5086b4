// What a trial costs the page. Opening a report must not keep the browser busy: the slowest trial a model file allows
// takes some thousand times as long as a common one.

/** Most rotor steps that are simulated without asking the reader first: about a tenth of a second. */
export const WITHOUT_ASKING = 2e6;
/** Rotor steps simulated before control returns to the browser. */
export const SLICE = 8e6;
/** Most rotor steps of a point's trials together that are simulated, in slices, without asking: about two seconds. */
export const POINT_WITHOUT_ASKING = 4e7;

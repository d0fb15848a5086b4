// What a trial costs the page, so that opening a report keeps no browser busy: a map may hold the slowest trial that a
// model file allows, some thousand times as long as a common one.

/** Rotor steps that are simulated without being asked for: some tenth of a second. */
export const UNASKED = 2e6;
/** Rotor steps between two turns of the page. */
export const SLICE = 8e6;

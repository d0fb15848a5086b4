/** What a map writes in place of a script's name where theory decides; no script may be called so. */
export const THEORY = "theory";

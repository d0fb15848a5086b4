// The warning on every drawing of a map that was changed after it was made and accepted with --unsealed.
import type { StabilityMap } from "../map/format.js";

const WORDS =
  "This map was changed by hand after it was made: its seal is broken, and --unsealed took it all the same. It may not be what was simulated.";

/** The sentence, or null for a map that is as it was made. */
export const unsealedWords = ({ unsealed }: Pick<StabilityMap, "unsealed">): string | null =>
  unsealed === undefined ? null : WORDS;

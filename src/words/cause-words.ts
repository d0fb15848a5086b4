// What else would give an axis a starting tune, besides the likeliest cause that its reason names.
import type { AxisMap } from "../map/format.js";

/** Whole sentences; none where one cause, or none, was found. */
export const otherCauses = ({ startCauses }: AxisMap): string[] =>
  (startCauses ?? []).slice(1).map(({ text }) => `Or: ${text.charAt(0).toLowerCase()}${text.slice(1)}`);

// A number field for a gain: it shows what the pilot types, and gives back the gain in display units.
import { ownText } from "../../map/gain-text.js";
import { byId } from "../dom.js";

/** Writes a gain given in display units; `perUnit` of the controller's own make one, null where nobody knows. */
export function writeGain(id: string, perUnit: number | null, value: number): void {
  const field = byId<HTMLInputElement>(id);
  const text = perUnit === null ? String(value) : ownText(perUnit * value);
  field.value = text;
  field.dataset.text = text;
  field.dataset.gain = String(value);
}

/** The gain in display units; as it was written, to the last digit, unless somebody typed another. NaN: not a number. */
export function gainIn(id: string, perUnit: number | null): number {
  const { value, valueAsNumber, dataset } = byId<HTMLInputElement>(id);
  if (dataset.text === value) return Number(dataset.gain);
  return valueAsNumber / (perUnit ?? 1);
}

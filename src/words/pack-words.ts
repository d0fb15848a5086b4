// How to know the pack that a step asks for: by its charge, and by what it reads in hover.
import type { FieldFacts, PackFacts } from "../map/field-facts.js";
import { capital } from "./limit-words.js";
import { about, percent } from "./numbers.js";

const FULL = 0.95; // of its charge

/** Hundredths of a volt, of a pack's voltage tenths: what a pilot reads. */
const volts = (value: number, digits: 1 | 2): string => `${value.toFixed(digits)}\u00a0V`;

const readsWords = ({ hoverVoltage, cellVoltage }: PackFacts): string =>
  `${volts(hoverVoltage, 1)} in hover${cellVoltage === null ? "" : ` (${volts(cellVoltage, 2)} a cell)`}`;

/**
 * "Fresh pack: charged full for every step, about 16.7 V in hover (4.18 V a cell)." `fresher`: the condition of the climb, where
 * this step checks the tune on a pack with less in it.
 */
export function packWords({ packs }: FieldFacts, condition: string, fresher: string | null = null): string {
  const pack = packs[condition];
  if (pack === undefined) return `${capital(condition)}.`;
  const { charge } = pack;
  const before = fresher === null ? undefined : packs[fresher];
  if (before !== undefined && pack.hoverVoltage < before.hoverVoltage)
    return `${capital(condition)}: one that has sunk from ${volts(before.hoverVoltage, 1)} to about ${readsWords(pack)}; no lower.`;
  const filled =
    charge === null ? "" : charge >= FULL ? "charged full for every step, " : `charged to ${percent(charge)}, `;
  return `${capital(condition)}: ${filled}about ${readsWords(pack)}.`;
}

/** "34 %": of the duty at which the craft should hover. */
export const hoverThrottleWords = ({ packs }: FieldFacts, condition: string): string | null => {
  const pack = packs[condition];
  return pack === undefined ? null : about(pack.hoverThrottle, "%");
};

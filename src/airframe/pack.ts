// The pack's voltage at rest against its charge.
import { at, last } from "../base/at.js";
import type { Pack } from "./airframe.js";

const FULL_CELL = 4.2; // V

// Charge, and open-circuit voltage as a share of the full cell's: the example record of the Modelica
// Standard Library (Electrical.Batteries.ParameterRecords.ExampleData).
const SHARES: readonly (readonly [charge: number, share: number])[] = [
  [0, 0.595],
  [0.01, 0.656],
  [0.02, 0.688],
  [0.03, 0.714],
  [0.04, 0.737],
  [0.05, 0.744],
  [0.06, 0.75],
  [0.07, 0.754],
  [0.08, 0.756],
  [0.09, 0.758],
  [0.1, 0.761],
  [0.15, 0.774],
  [0.2, 0.786],
  [0.25, 0.795],
  [0.3, 0.804],
  [0.35, 0.811],
  [0.4, 0.818],
  [0.45, 0.826],
  [0.5, 0.835],
  [0.55, 0.843],
  [0.6, 0.855],
  [0.65, 0.871],
  [0.7, 0.888],
  [0.75, 0.905],
  [0.8, 0.926],
  [0.85, 0.943],
  [0.9, 0.964],
  [0.95, 0.98],
  [1, 1],
];

/** Open-circuit voltage of one lithium cell, V, against charge from 0 to 1; for models that declare none. */
export const CELL_OPEN_CIRCUIT: Pack["openCircuit"] = Object.freeze(
  SHARES.map(([charge, share]) => Object.freeze([charge, share * FULL_CELL] as const)),
);

/**
 * Voltage of the whole pack at rest, V, at a charge from 0 to 1: linear between the table's rows, its
 * end values beyond them. RangeError for a charge outside 0 to 1.
 */
export function openCircuitVolts(pack: Pack, charge: number): number {
  if (!(charge >= 0 && charge <= 1)) throw new RangeError(`charge ${charge} is outside 0 to 1`);
  return pack.cells * cellVolts(pack.openCircuit, charge);
}

function cellVolts(table: Pack["openCircuit"], charge: number): number {
  const above = table.findIndex(([c]) => c >= charge);
  if (above === -1) return last(table)[1];
  if (above === 0) return at(table, 0)[1];
  const [c0, v0] = at(table, above - 1);
  const [c1, v1] = at(table, above);
  return v0 + ((v1 - v0) * (charge - c0)) / (c1 - c0);
}

// A doubt about a model, and how warnings print numbers.
import type { Airframe } from "../airframe/airframe.js";
import { figures, quantityText } from "../base/units.js";
import type { Sheet } from "./format.js";

export type Figures = Omit<Sheet, "warnings">;
/** The text of a warning, or null where all is likely. */
export type Doubt = (airframe: Airframe, figures: Figures) => string | null;

/** Unlikely below the first or above the second. */
export type Likely = readonly [low: number, high: number];
export const outside = (value: number, [low, high]: Likely): boolean => value < low || value > high;

const threeDigits = (value: number): number => Number(value.toPrecision(3));

/** As model files spell it: 4.2e-6 kg m^2. */
export const inertiaText = (value: number): string => `${threeDigits(value).toExponential()} kg m^2`;
export const millimetres = (value: number): string => quantityText(threeDigits(value), "length", "mm");
export const percent = (share: number): string => `${figures(Math.round(100 * share))} %`;
export const twoDigits = (value: number): string => figures(Number(value.toPrecision(2)));

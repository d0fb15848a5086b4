// The standard atmosphere (ISO 2533:1975) from 2 km below sea level to 11 km above, dry air.
import { pow } from "../base/elementary.js";

const SEA_LEVEL_TEMPERATURE = 288.15; // K
const SEA_LEVEL_PRESSURE = 101325; // Pa
const LAPSE = 0.0065; // K per geopotential metre
const GAS_CONSTANT = 287.05287; // J/(kg K), dry air
const PRESSURE_EXPONENT = 9.80665 / (GAS_CONSTANT * LAPSE);

/**
 * Temperature (K), pressure (Pa) and density (kg/m^3) at a pressure altitude in geopotential metres.
 * RangeError outside -2000 to 11000 m, where another law holds.
 */
export function standardAir(pressureAltitude: number): { temperature: number; pressure: number; density: number } {
  if (!(pressureAltitude >= -2000 && pressureAltitude <= 11000)) {
    throw new RangeError(`pressure altitude ${pressureAltitude} m is outside -2000 to 11000 m`);
  }
  const temperature = SEA_LEVEL_TEMPERATURE - LAPSE * pressureAltitude;
  const pressure = SEA_LEVEL_PRESSURE * pow(temperature / SEA_LEVEL_TEMPERATURE, PRESSURE_EXPONENT);
  return { temperature, pressure, density: pressure / (GAS_CONSTANT * temperature) };
}

/**
 * Density of dry air, kg/m^3, at a pressure altitude (geopotential m) and a temperature (K; null: the
 * standard one). Humidity is left out: under 1 % below 25 degrees Celsius.
 */
export function airDensity(pressureAltitude: number, temperature: number | null): number {
  const standard = standardAir(pressureAltitude);
  if (temperature === null) return standard.density;
  if (!(temperature > 0)) throw new RangeError(`temperature ${temperature} K is not above absolute zero`);
  return standard.pressure / (GAS_CONSTANT * temperature);
}

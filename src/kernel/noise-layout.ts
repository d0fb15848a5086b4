// A control period's noise: the sensor's error about each axis, rad/s, then the share of its thrust that each rotor has.
export const SENSOR_ERROR = 0; // 3
export const SHARES = 3; // one per rotor

export const noiseWidth = (rotors: number): number => SHARES + rotors;

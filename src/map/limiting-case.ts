// The limiting case of a point or boundary, as every map names it.

/** The case that decided: a script at a throttle level and commanded rate under a condition. */
export interface LimitingCase {
  readonly script: string;
  readonly throttle: number; // %, collective duty
  readonly rate: number; // deg/s, 0 where the script commands none
  readonly condition: string;
}

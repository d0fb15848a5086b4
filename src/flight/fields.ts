// Values that only flight files hold: a number that was seen, with how far it may be off; a gain in the controller's own
// numbers or with its unit; a sign.
import { z } from "zod";
import { describeValue, field, measured, measuredBy, quantity } from "../base/fields.js";
import type { Reading } from "../base/quantity.js";
import type { Kind } from "../base/units.js";
import type { Seen } from "./flight.js";

/** A quantity with its spread, which must be written; both SI, the spread as two standard deviations. */
export function seen(kind: Kind, least: string, most: string, example: string): z.ZodType<Seen> {
  const bare = measured(kind, least, most);
  const reader = measuredBy(bare);
  const read = (written: unknown): Reading<Seen> => {
    const reading = reader?.read(written) ?? { fault: "" };
    if ("fault" in reading) return reading;
    const { value, spread } = reading.value;
    if (spread === null)
      return { fault: `${String(written).trim()} says not how far it may be off (try "${example}")` };
    const deviations = { normal: 1, uniform: 2 / Math.sqrt(3), "log-normal": value };
    return { value: { value, size: spread.size * deviations[spread.law] } };
  };
  return field(read, forEditors(bare));
}

export interface WrittenGain {
  readonly own: boolean;
  readonly value: number;
}

const LARGEST_OWN = 1e6;

/** A bare number is the controller's own; with its unit a gain is SI. */
export function gain(kind: "pGain" | "iGain" | "dGain", least: string, most: string): z.ZodType<WrittenGain> {
  const withUnit = quantity(kind, least, most);
  const read = (written: unknown): Reading<WrittenGain> => {
    if (typeof written === "number")
      return written >= 0 && written <= LARGEST_OWN
        ? { value: { own: true, value: written } }
        : { fault: `${written} is out of range, expected the controller's own number from 0 to ${LARGEST_OWN}` };
    const { success, data, error } = withUnit.safeParse(written);
    if (success) return { value: { own: false, value: data } };
    return { fault: `${error.issues[0]?.message}, or the controller's own number without a unit` };
  };
  const own = { type: "number", minimum: 0, maximum: LARGEST_OWN };
  const description = "the controller's own number, or a gain with its unit";
  return field(read, { description, anyOf: [own, forEditors(withUnit)] });
}

export const sign = (): z.ZodType<1 | -1> =>
  field(
    (written): Reading<1 | -1> =>
      written === 1 || written === -1
        ? { value: written }
        : { fault: `expected 1 or -1, found ${describeValue(written)}` },
    { description: "1 or -1", enum: [1, -1] },
  );

/** A plain number in a column, as it stands there; not 0 where `nonzero`. */
export const plain = (nonzero = false): z.ZodType<number> =>
  field(
    (written): Reading<number> => {
      if (typeof written !== "number" || !Number.isFinite(written))
        return { fault: `${describeValue(written)} is not a number, expected one as it stands in the column` };
      return nonzero && written === 0 ? { fault: "expected a number other than 0" } : { value: written };
    },
    { type: "number", description: "a number as it stands in the column" },
  );

function forEditors(schema: z.ZodType): Record<string, unknown> {
  const { $schema: _, ...shape } = z.toJSONSchema(schema, { io: "input" });
  return shape;
}

// Which unit each key of a file is written in, read off its schema: nobody lists them again.
import { z } from "zod";
import { writtenIn } from "./fields.js";
import { besidesTheWord } from "./shapes.js";
import type { Kind } from "./units.js";

export interface KeyUnit {
  readonly kind: Kind;
  /** The unit messages name first; left out where the kind's own choice is as good. */
  readonly unit?: string;
}

/** Every key that holds a quantity, "sensing.low_pass[].cutoff", with its unit. */
export function keyUnitsOf(schema: z.ZodType, at = ""): ReadonlyMap<string, KeyUnit> {
  const found = new Map<string, KeyUnit>();
  const visit = (one: unknown, key: string): void => {
    const unit = writtenIn(one as z.ZodType);
    const other = besidesTheWord(one as z.ZodType);
    if (unit !== undefined) found.set(key, unit);
    else if (other !== undefined) visit(other, key);
    else if (one instanceof z.ZodOptional) visit(one.unwrap(), key);
    else if (one instanceof z.ZodArray) visit(one.element, `${key}[]`);
    else if (one instanceof z.ZodUnion) for (const option of one.options) visit(option, key);
    else if (one instanceof z.ZodObject)
      for (const [name, part] of Object.entries(one.shape)) visit(part, key === "" ? name : `${key}.${name}`);
  };
  visit(schema, at);
  return found;
}

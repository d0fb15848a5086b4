// Every spread written in a file: its data walked along with its schema.
import { z } from "zod";
import { measuredBy } from "./fields.js";
import { type Path, pathText } from "./problem.js";
import { besidesTheWord } from "./shapes.js";
import type { Spread } from "./spread.js";

/** A spread, and where its number stands in what the schema gives. */
export interface PlacedSpread extends Spread {
  readonly path: Path;
}

/** In the order of the schema. The data has passed the schema: what is wrong in it is not looked for. */
export function spreadsIn(schema: z.ZodType, data: unknown): PlacedSpread[] {
  const found: PlacedSpread[] = [];
  const visit = (one: z.ZodType, written: unknown, path: Path): void => {
    if (written === undefined) return;
    const measured = measuredBy(one);
    if (measured !== undefined) {
      const reading = measured.read(written);
      if ("fault" in reading || reading.value.spread === null) return;
      const { value: nominal, spread } = reading.value;
      const { least, most } = measured;
      found.push({ key: pathText(path), nominal, ...spread, least, most, path });
      return;
    }
    const other = besidesTheWord(one);
    if (other !== undefined) visit(other, written, path);
    else if (one instanceof z.ZodOptional) visit(one.unwrap() as z.ZodType, written, path);
    else if (one instanceof z.ZodArray && Array.isArray(written))
      for (const [at, item] of written.entries()) visit(one.element as z.ZodType, item, [...path, at]);
    else if (one instanceof z.ZodUnion) {
      const option = one.options.find((candidate) => (candidate as z.ZodType).safeParse(written).success);
      if (option !== undefined) visit(option as z.ZodType, written, path);
    } else if (one instanceof z.ZodObject && typeof written === "object" && written !== null)
      for (const [name, part] of Object.entries(one.shape))
        visit(part as z.ZodType, (written as Record<string, unknown>)[name], [...path, name]);
  };
  visit(schema, data, []);
  return found;
}

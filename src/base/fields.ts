// The single values files are made of, as zod schemas with texts of our own: quantities, counts, names and
// choices. Each schema also carries what an editor needs to check the file while it is written.
import { z } from "zod";
import { holdsHidden } from "./hidden.js";
import { suggestion } from "./nearest.js";
import { shortened } from "./problem.js";
import { type Reading, readQuantity } from "./quantity.js";
import { carriesSpread, type Measured, readMeasuredNumber, readMeasuredQuantity } from "./spread.js";
import { KINDS, type Kind } from "./units.js";

/** A field read by one function from whatever was written; absent is "missing" unless made optional. */
export function field<T>(read: (written: unknown) => Reading<T>, forEditors: Record<string, unknown>): z.ZodType<T> {
  const schema = z.unknown().transform((written, context): T => {
    const reading: Reading<T> = written === undefined ? { fault: "missing" } : read(written);
    if ("value" in reading) return reading.value;
    context.issues.push({ code: "custom", message: reading.fault, input: written });
    return z.NEVER;
  });
  return schema.meta(forEditors) as unknown as z.ZodType<T>;
}

/** A quantity of a kind within a range given with units, SI out. `preferred`: the unit messages name first. */
export function quantity(kind: Kind, least: string, most: string, preferred?: string): z.ZodType<number> {
  const [low, high] = [siOf(least, kind), siOf(most, kind)];
  const read = (written: unknown): Reading<number> => {
    const reading = readQuantity(written, kind, preferred);
    if ("fault" in reading || (reading.value >= low && reading.value <= high)) return reading;
    return { fault: `${String(written).trim()} is out of range, expected ${least} to ${most}` };
  };
  return asQuantity(
    field(read, quantityForEditors(kind, `${KINDS[kind].title}, ${least} to ${most}`)),
    kind,
    preferred,
  );
}

/** As `quantity`, with a spread beside it where one is written; the nominal value out. `measuredBy` gives the spread. */
export function measured(kind: Kind, least: string, most: string, preferred?: string): z.ZodType<number> {
  const range = { least: siOf(least, kind), most: siOf(most, kind), words: `${least} to ${most}` };
  const read = (written: unknown) => readMeasuredQuantity(written, kind, range, preferred);
  const forEditors = quantityForEditors(kind, `${KINDS[kind].title}, ${least} to ${most}`, true);
  return asQuantity(asMeasured(forEditors, read, range), kind, preferred);
}

/** As `ratio`, with a spread beside it where one is written. */
export function measuredRatio(least: number, most: number): z.ZodType<number> {
  const range = { least, most, words: `a number from ${least} to ${most}` };
  const read = (written: unknown): Reading<Measured> =>
    carriesSpread(written)
      ? readMeasuredNumber(written, range)
      : withoutSpread(readNumber(written, least, most, "a number"));
  const spread = {
    type: "string",
    pattern: `^\\s*${FIGURE}(\\s*(±|\\+/-)\\s*${FIGURE}\\s*%?|\\s+to\\s+${FIGURE})\\s*$`,
  };
  const description = `a number, ${least} to ${most}${SPREAD_HINT}`;
  return asMeasured({ description, anyOf: [{ type: "number", minimum: least, maximum: most }, spread] }, read, range);
}

interface MeasuredField {
  readonly read: (written: unknown) => Reading<Measured>;
  /** The range of the number, SI. */
  readonly least: number;
  readonly most: number;
}

const measuredFields = new WeakMap<z.ZodType, MeasuredField>();

/** How a schema reads a number with its spread; undefined where the number can have none. */
export const measuredBy = (schema: z.ZodType): MeasuredField | undefined => measuredFields.get(schema);

function asMeasured(
  forEditors: Record<string, unknown>,
  read: MeasuredField["read"],
  { least, most }: { readonly least: number; readonly most: number },
): z.ZodType<number> {
  const schema = field((written): Reading<number> => {
    const reading = read(written);
    return "fault" in reading ? reading : { value: reading.value.value };
  }, forEditors);
  measuredFields.set(schema, { read, least, most });
  return schema;
}

const withoutSpread = (reading: Reading<number>): Reading<Measured> =>
  "fault" in reading ? reading : { value: { value: reading.value, spread: null } };

const quantities = new WeakMap<z.ZodType, { readonly kind: Kind; readonly unit?: string }>();

/** The same schema, remembered as that of a quantity. */
function asQuantity<S extends z.ZodType>(schema: S, kind: Kind, unit?: string): S {
  quantities.set(schema, unit === undefined ? { kind } : { kind, unit });
  return schema;
}

/** The kind and preferred unit of what a schema reads; undefined where that is no quantity. */
export const writtenIn = (schema: z.ZodType) => quantities.get(schema);

const SPREAD_HINT = "; with ± or a range, how far it may be off";
const FIGURE = "[+\u2212-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?";

/** The JSON schema of a quantity, for editors; `spread`: one may stand beside it. */
function quantityForEditors(kind: Kind, description: string, spread = false): Record<string, unknown> {
  const units = Object.keys(KINDS[kind].units);
  const spelt = units.map((unit) =>
    unit.replace(/[/()]/g, "\\s*\\$&\\s*").replace("^", "\\s*\\^?\\s*").replace(/ /g, "\\s+"),
  );
  // the last alternative lets degree, micro and square signs pass, and ±
  const unit = `(${spelt.join("|")}|.*[^ -~].*)`;
  const beside = `\\s*((\\+/-)\\s*${FIGURE}\\s*(%|${unit})|to\\s+${FIGURE}\\s*${unit})`;
  return {
    type: "string",
    description: `${description}; units: ${units.join(", ")}${spread ? SPREAD_HINT : ""}`,
    pattern: `^\\s*${FIGURE}\\s*${spread ? `(${unit}(${beside})?|${beside})` : unit}\\s*$`,
  };
}

/** A bound of ours in SI; RangeError where it is not a quantity of the kind. */
export function siOf(text: string, kind: Kind): number {
  const reading = readQuantity(text, kind);
  if ("fault" in reading) throw new RangeError(reading.fault);
  return reading.value;
}

/** A number without a unit. */
export const ratio = (least: number, most: number): z.ZodType<number> =>
  field((written) => readNumber(written, least, most, "a number"), { type: "number", minimum: least, maximum: most });

/** A whole number. */
export const count = (least: number, most: number): z.ZodType<number> =>
  field((written) => readNumber(written, least, most, "a whole number"), {
    type: "integer",
    minimum: least,
    maximum: most,
  });

function readNumber(written: unknown, least: number, most: number, title: string): Reading<number> {
  const expected = `expected ${title} from ${least} to ${most}`;
  if (typeof written !== "number") return { fault: `${describeValue(written)} is not a number, ${expected}` };
  if (title === "a whole number" && !Number.isInteger(written))
    return { fault: `${written} is not a whole number, ${expected}` };
  return written >= least && written <= most
    ? { value: written }
    : { fault: `${written} is out of range, ${expected}` };
}

/** One of a few words. */
export function choice<const W extends string>(words: readonly W[]): z.ZodType<W> {
  const expected = words.length === 1 ? words[0] : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
  const read = (written: unknown): Reading<W> => {
    const found = words.find((word) => word === written);
    if (found !== undefined) return { value: found };
    const near = typeof written === "string" ? suggestion(written, words) : "";
    return { fault: `expected ${expected}, found ${describeValue(written)}${near.startsWith(" (did") ? near : ""}` };
  };
  return field(read, { type: "string", enum: [...words] });
}

/** A short name that can be part of a file name anywhere. */
export const name = (): z.ZodType<string> =>
  field(
    (written) => {
      if (typeof written !== "string") return { fault: `expected a name, found ${describeValue(written)}` };
      if (NAME.test(written) && !holdsHidden(written)) return { value: written };
      return {
        fault: `${describeValue(written)} is not a valid name: letters, digits, spaces, hyphens and underscores, at most 40, letter or digit first and last`,
      };
    },
    { type: "string", pattern: "^[\\p{L}\\p{N}]([\\p{L}\\p{M}\\p{N} _-]{0,38}[\\p{L}\\p{M}\\p{N}])?$" },
  );

const NAME = /^[\p{L}\p{N}](?:[\p{L}\p{M}\p{N} _-]{0,38}[\p{L}\p{M}\p{N}])?$/u;

/** A text: one line, or with `lines` several. */
export const words = (longest: number, lines: "one line" | "lines" = "one line"): z.ZodType<string> =>
  field(
    (written) => {
      if (typeof written !== "string") return { fault: `expected a text, found ${describeValue(written)}` };
      if (written.trim() === "") return { fault: "expected a text, found an empty one" };
      if (written.length > longest) return { fault: `${written.length} characters, expected at most ${longest}` };
      const bare = lines === "lines" ? written.replace(/[\n\t]/g, " ") : written;
      if (holdsHidden(bare))
        return { fault: `${describeValue(written)} holds characters that cannot be printed on one line` };
      return { value: written.trim() };
    },
    { type: "string", maxLength: longest },
  );

/** A written value in a message. */
export function describeValue(written: unknown): string {
  if (written === null) return "an empty value";
  if (Array.isArray(written)) return "a list";
  if (typeof written === "object") return "a group of keys";
  return typeof written === "string" ? `"${shortened(written)}"` : String(written);
}

// Containers of a file's fields: lists and groups of known keys, as zod schemas with messages of our own.
import { z } from "zod";
import { describeValue } from "./fields.js";

/** A list of `least` to `most` items; `items` names them ("rotors"). */
export const list = <S extends z.ZodType>(item: S, least: number, most: number, items: string): z.ZodArray<S> => {
  const range = least === most ? least : `${least} to ${most}`;
  return z
    .array(item, {
      error: (issue) => {
        if (issue.code !== "invalid_type")
          return `expected ${range} ${items}, found ${(issue.input as unknown[]).length}`;
        return issue.input === undefined
          ? "missing"
          : `expected a list of ${items}, found ${describeValue(issue.input)}`;
      },
    })
    .min(least)
    .max(most);
};

const others = new WeakMap<z.ZodType, z.ZodType>();

/** What a schema made by `wordOr` reads besides its word; undefined for any other schema. */
export const besidesTheWord = (schema: z.ZodType): z.ZodType | undefined => others.get(schema);

/** Either the one word, or what the schema reads. */
export function wordOr<const W extends string, S extends z.ZodType>(word: W, other: S): z.ZodType<W | z.output<S>> {
  const schema = z.unknown().transform((written, context): W | z.output<S> => {
    if (written === word) return word;
    const result = other.safeParse(written);
    if (result.success) return result.data;
    for (const issue of result.error.issues) {
      const message =
        typeof written === "string" ? `expected "${word}" or a list, found ${describeValue(written)}` : issue.message;
      context.issues.push({ code: "custom", message, path: [...issue.path], input: written });
    }
    return z.NEVER;
  });
  const { $schema: _, ...listed } = z.toJSONSchema(other, { io: "input" });
  const described = schema.meta({ anyOf: [{ type: "string", const: word }, listed] });
  others.set(described, other);
  return described as unknown as z.ZodType<W | z.output<S>>;
}

/** Reads what looks like a form by that form's schema alone, so that its problems are those of the form meant. */
type Form<S extends z.ZodType> = readonly [looksSo: (written: unknown) => boolean, schema: S];

/** One of several forms; the first that what is written looks like. `expected` says what may be written. */
export function firstFit<S extends readonly z.ZodType[]>(
  expected: string,
  ...forms: { readonly [K in keyof S]: Form<S[K]> }
): z.ZodType<z.output<S[number]>> {
  const schema = z.unknown().transform((written, context): z.output<S[number]> => {
    const [, meant] = forms.find(([looksSo]) => looksSo(written)) ?? [];
    const result = meant?.safeParse(written);
    if (result?.success) return result.data as z.output<S[number]>;
    const message = written === undefined ? "missing" : `expected ${expected}, found ${describeValue(written)}`;
    const issues = result?.error.issues ?? [{ code: "custom", message }];
    for (const issue of issues) context.issues.push({ ...issue, input: written } as never);
    return z.NEVER;
  });
  const anyOf = forms.map(([, form]) => {
    const { $schema: _, ...shape } = z.toJSONSchema(form, { io: "input" });
    return shape;
  });
  return schema.meta({ anyOf }) as unknown as z.ZodType<z.output<S[number]>>;
}

/** A group of known keys; anything else in it is a problem. */
export const group = <S extends z.core.$ZodLooseShape>(shape: S): z.ZodObject<S, z.core.$strict> =>
  z.strictObject(shape, {
    // zod reports the unknown keys alone, so the text of that issue carries the known ones
    error: (issue) => {
      if (issue.code === "unrecognized_keys") return JSON.stringify(Object.keys(shape));
      return issue.input === undefined
        ? "missing"
        : `expected the keys ${Object.keys(shape).join(", ")}, found ${describeValue(issue.input)}`;
    },
  });

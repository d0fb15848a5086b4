// A document against a schema: the value, or every problem at once with its place.
import type { z } from "zod";
import { type Document, problemAt } from "./document.js";
import { nearest, suggestion } from "./nearest.js";
import { InputError, type Path, type Problem } from "./problem.js";

/** The document's data as the schema reads it. InputError with every problem. */
export function check<S extends z.ZodType>(schema: S, document: Document): z.output<S> {
  const result = schema.safeParse(document.data);
  if (result.success) return result.data;
  const { issues } = result.error;
  const strays = issues.flatMap(straysOf);
  const told = new Set(strays.map(({ path, meant }) => JSON.stringify([...path.slice(0, -1), meant])));
  const seen = new Set<string>();
  // A key missing because it was misspelt is one mistake, told once; so is a value that is wrong in two ways.
  const others = issues.filter(({ code, path, message }) => {
    const place = JSON.stringify(path);
    if (code === "unrecognized_keys" || (told.has(place) && message === "missing") || seen.has(place)) return false;
    seen.add(place);
    return true;
  });
  throw new InputError([
    ...strays.map((stray) => problemAt(document, stray.path, stray.message, "key")),
    ...others.map((issue): Problem => problemAt(document, issue.path as Path, issue.message)),
  ]);
}

interface Stray {
  readonly path: Path;
  readonly meant: string | null;
  readonly message: string;
}

/** Each unknown key of an issue, with the key that was probably meant. */
function straysOf(issue: z.core.$ZodIssue): Stray[] {
  if (issue.code !== "unrecognized_keys") return [];
  const known = JSON.parse(issue.message) as string[];
  return issue.keys.map((key) => ({
    path: [...(issue.path as Path), key],
    meant: nearest(key, known),
    message: `unknown key${suggestion(key, known)}`,
  }));
}

// A document against a schema: the value, or every problem at once with its place.
import type { z } from "zod";
import { type Document, problemAt } from "./document.js";
import { nearest, suggestion } from "./nearest.js";
import { InputError, MOST_PROBLEMS, type Path, type Problem } from "./problem.js";

/** The document's data as the schema reads it. InputError with the problems found. */
export function check<S extends z.ZodType>(schema: S, document: Document): z.output<S> {
  const result = schema.safeParse(document.data);
  if (result.success) return result.data;
  throw faultsOf(result.error.issues, document);
}

/** As `check`, but keys may be missing where `mayBeMissing` says so; nothing else about them may be wrong. */
export function checkPresent(schema: z.ZodType, document: Document, mayBeMissing: (path: Path) => boolean): void {
  const { issues = [] } = schema.safeParse(document.data).error ?? {};
  const wrong = issues.filter(({ path, message }) => !(message === MISSING && mayBeMissing(path as Path)));
  if (wrong.length > 0) throw faultsOf(wrong, document);
}

const MISSING = "missing";

function faultsOf(issues: readonly z.core.$ZodIssue[], document: Document): InputError {
  const strays = issues.flatMap(unknownKeysOf);
  const misspelt = new Set(strays.map(({ path, meant }) => JSON.stringify([...path.slice(0, -1), meant])));
  const reportedPlaces = new Set<string>();
  // A key missing because it was misspelt is one mistake, reported once; so is a value that is wrong in two ways.
  const others = issues.filter(({ code, path, message }) => {
    const place = JSON.stringify(path);
    if (code === "unrecognized_keys" || (misspelt.has(place) && message === MISSING) || reportedPlaces.has(place))
      return false;
    reportedPlaces.add(place);
    return true;
  });
  // Finding a place takes a walk through the file, so only those that are reported are looked up.
  const first = [
    ...strays.map((stray) => () => problemAt(document, stray.path, stray.message, "key")),
    ...others.map((issue) => (): Problem => problemAt(document, issue.path as Path, issue.message)),
  ];
  const unseen = issues.reduce((sum, issue) => sum + Math.max(0, strayKeys(issue).length - MOST_PROBLEMS), 0);
  const rest = Math.max(0, first.length - MOST_PROBLEMS) + unseen;
  return new InputError(
    first.slice(0, MOST_PROBLEMS).map((problem) => problem()),
    rest,
  );
}

interface UnknownKey {
  readonly path: Path;
  readonly meant: string | null;
  readonly message: string;
}

/** Each unknown key of an issue, with the key that was probably meant. */
function unknownKeysOf(issue: z.core.$ZodIssue): UnknownKey[] {
  const keys = strayKeys(issue).slice(0, MOST_PROBLEMS);
  const knownKeys = keys.length === 0 ? [] : (JSON.parse(issue.message) as string[]);
  return keys.map((key) => ({
    path: [...(issue.path as Path), key],
    meant: nearest(key, knownKeys),
    message: `unknown key${suggestion(key, knownKeys)}`,
  }));
}

const strayKeys = (issue: z.core.$ZodIssue): readonly string[] =>
  issue.code === "unrecognized_keys" ? issue.keys : [];

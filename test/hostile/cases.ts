// How many hostile inputs are tried, and what is in them. The nightly run sets GAINSCAPE_CASES; a seed that failed can be set
// again with GAINSCAPE_SEED.
import fc from "fast-check";

const CASES = Number(process.env.GAINSCAPE_CASES ?? 1000);
/** More cases than a commit waits for. */
export const NIGHT = CASES > 1000;
const seed = Number(process.env.GAINSCAPE_SEED ?? 20261125);

/** Tries a share of all cases. */
export const tried = <T>(share: number, arbitrary: fc.Arbitrary<T>, act: (value: T) => void): void =>
  fc.assert(fc.property(arbitrary, act), { seed, numRuns: Math.ceil(share * CASES) });

/** The same for what takes a while. */
export const triedSlowly = <T>(share: number, arbitrary: fc.Arbitrary<T>, act: (value: T) => Promise<void>) =>
  fc.assert(fc.asyncProperty(arbitrary, act), { seed, numRuns: Math.ceil(share * CASES) });

/** Recognised where text has been taken for markup or a formula. */
export const MARKUP = "<script>alert(1)</script>";
const FORMULA = "=cmd|'/C calc'!A0";

const texts = fc.oneof(
  fc.constantFrom(
    MARKUP,
    FORMULA,
    "+1+1",
    "@SUM(A1)",
    "-2+3",
    '"><img src=x onerror=alert(1)>',
    "]]>",
    "../../../../tmp/escaped",
    "/etc/passwd",
    "C:\\Windows\\x",
    "CON",
    ".",
    "..",
    "",
    " ",
    "\u0000",
    "\u001b[2J\u001b[31m",
    "\r\n",
    "\u202eevil",
    "\u2028",
    "\ud800",
    "__proto__",
    "constructor",
    "toString",
    "NaN",
    ".nan",
    ".inf",
    "1e308",
    "1e999 g",
    "-1e308 kg",
    "0 g",
    "5 kg m^2 kg m^2",
    `9${"9".repeat(400)} g`,
    "9".repeat(100_000),
    "x".repeat(300_000),
    "&a *a !x",
    "a: b: c",
    "- - - -",
  ),
  fc.string({ unit: "binary", maxLength: 40 }),
);

const numbers = fc.oneof(
  fc.constantFrom(0, -0, 1e308, -1e308, 5e-324, 2 ** 53, -1, 0.5, 4294967296, 1e21),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.integer(),
);

/** Anything JSON can say, the worst of it more often. */
export const hostile: fc.Arbitrary<unknown> = fc.oneof(
  { weight: 4, arbitrary: texts },
  { weight: 4, arbitrary: numbers },
  { weight: 1, arbitrary: fc.constantFrom(null, true, [], {}) },
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 3 }) },
  { weight: 1, arbitrary: fc.integer({ min: 2, max: 3000 }).map(nested) },
  { weight: 1, arbitrary: fc.integer({ min: 2, max: 5000 }).map((count) => new Array(count).fill(1)) },
);

function nested(levels: number): unknown {
  let value: unknown = "deep";
  for (let level = 0; level < levels; level++) value = level % 2 === 0 ? [value] : { a: value };
  return value;
}

/** One change to a tree of plain data. `place` from 0 to 1 picks the node. */
export interface Edit {
  readonly place: number;
  readonly act: "alike" | "replace" | "delete" | "rename" | "double" | "swap";
  readonly value: unknown;
  readonly number: number;
  readonly key: string;
}

/** Even over 0 to 1, which fc.double is not: half of its numbers are next to nothing. */
export const place = fc.nat(999_999).map((part) => part / 1_000_000);

/** "alike" puts a text for a text and a number for a number: what looks right gets furthest. */
const ACTS = [...new Array(8).fill("alike"), "replace", "replace", "delete", "rename", "double", "swap"] as const;

export const edits: fc.Arbitrary<readonly Edit[]> = fc.array(
  fc.record({
    place,
    act: fc.constantFrom<Edit["act"]>(...(ACTS as readonly Edit["act"][])),
    value: hostile,
    number: numbers,
    key: fc.oneof(fc.constantFrom("__proto__", "constructor", "toString", "hasOwnProperty", "length"), texts),
  }),
  { minLength: 1, maxLength: 4 },
);

type Holder = Record<string | number, unknown>;
type Node = readonly [holder: Holder, key: string | number];

/** A copy of the tree with the edits made. */
export function edited(tree: unknown, list: readonly Edit[]): unknown {
  const root: Holder = { root: structuredClone(tree) };
  for (const edit of list) {
    const nodes = nodesOf(root);
    if (nodes.length === 0) break; // everything has been deleted
    const [holder, key] = nodes[Math.floor(edit.place * nodes.length)] as Node;
    const other = nodes[Math.floor(((edit.place * 7919) % 1) * nodes.length)] as Node;
    make(edit, holder, key, other[0][other[1]]);
  }
  return root.root;
}

function make(edit: Edit, holder: Holder, key: string | number, other: unknown): void {
  const { act, value, key: name } = edit;
  if (act === "alike") put(holder, key, alike(holder[key], edit));
  else if (act === "replace") put(holder, key, value);
  else if (act === "swap") put(holder, key, structuredClone(other));
  else if (act === "double") put(holder, key, [holder[key], structuredClone(holder[key])]);
  else if (Array.isArray(holder)) holder.splice(key as number, 1);
  else {
    const entry = holder[key];
    delete holder[key];
    if (act === "rename") put(holder, name, entry);
  }
}

function alike(entry: unknown, { value, number, key }: Edit): unknown {
  if (typeof entry === "string") return key;
  if (typeof entry === "number") return number;
  return typeof entry === "boolean" ? !entry : value;
}

/** Also a key "__proto__" becomes a key of its own, as it is in a file. */
const put = (holder: Holder, key: string | number, value: unknown): void =>
  void Object.defineProperty(holder, key, { value, writable: true, enumerable: true, configurable: true });

function nodesOf(root: Holder): Node[] {
  const nodes: Node[] = [];
  const waiting: Holder[] = [root];
  for (let holder = waiting.pop(); holder !== undefined; holder = waiting.pop()) {
    for (const key of Object.keys(holder)) {
      nodes.push([holder, Array.isArray(holder) ? Number(key) : key]);
      const value = holder[key];
      if (typeof value === "object" && value !== null) waiting.push(value as Holder);
    }
  }
  return nodes;
}

/** Stretches of a text or of bytes taken out, doubled or replaced. */
export const cuts = fc.array(
  fc.record({
    place,
    length: fc.integer({ min: 0, max: 60 }),
    by: fc.oneof(
      texts,
      fc.constantFrom(
        "{",
        "[",
        "]",
        "}",
        "- ",
        ": ",
        "&a ",
        "*a",
        "!x ",
        "\n",
        "  ",
        "null",
        "#",
        '"',
        "<<: *a\n",
        ",",
      ),
    ),
  }),
  { minLength: 1, maxLength: 4 },
);

export type Cut = { readonly place: number; readonly length: number; readonly by: string };

export const cut = (text: string, list: readonly Cut[]): string =>
  list.reduce((before, { place: at, length, by }) => {
    const from = Math.floor(at * before.length);
    return before.slice(0, from) + by + before.slice(from + length);
  }, text);

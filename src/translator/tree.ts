// The kernel's dialect as a tree: what is left of loop.ts once it has been read and its kinds checked.

/** Varying: every lane has its own. Uniform: one number for all lanes. Index: a place or a count. */
export type Kind = "Varying" | "Uniform" | "Index";

/** A written constant fits any kind; it takes that of its surroundings. */
export type Expression =
  | { readonly form: "constant"; readonly kind: "constant"; readonly value: number }
  | { readonly form: "name"; readonly kind: Kind; readonly name: string }
  | { readonly form: "cell"; readonly kind: "Varying" | "Uniform"; readonly array: string; readonly index: Expression }
  | {
      readonly form: "binary";
      readonly kind: Kind;
      readonly operator: Operator;
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly form: "negative"; readonly kind: "Varying" | "Uniform"; readonly of: Expression }
  | {
      readonly form: "choice";
      readonly kind: Kind;
      readonly test: Test;
      readonly met: Expression;
      readonly otherwise: Expression;
    }
  | {
      readonly form: "call";
      readonly kind: "Varying";
      readonly helper: string;
      readonly values: readonly Expression[];
    };

export type Operator = "+" | "-" | "*" | "/" | "%";

export interface Test {
  readonly operator: "<" | ">" | "===";
  readonly left: Expression;
  readonly right: Expression;
}

export type Target =
  | { readonly form: "name"; readonly kind: "Varying" | "Index"; readonly name: string }
  | { readonly form: "cell"; readonly kind: "Varying" | "Uniform"; readonly array: string; readonly index: Expression };

export type Statement =
  | {
      readonly form: "declare";
      readonly name: string;
      readonly kind: Kind;
      readonly changes: boolean;
      readonly value: Expression;
    }
  | { readonly form: "assign"; readonly target: Target; readonly value: Expression }
  | {
      readonly form: "loop";
      readonly name: string;
      readonly from: Expression;
      readonly below: Expression;
      readonly body: readonly Statement[];
    }
  | { readonly form: "when"; readonly test: Test; readonly body: readonly Statement[] }
  | { readonly form: "leave" };

/** A one-line function of lanes, `(a, b) => expression`. */
export interface Helper {
  readonly parameters: readonly string[];
  readonly body: Expression;
}

export interface Program {
  /** Arrays first, then counts, in the order of the parameters. */
  readonly arrays: readonly { readonly name: string; readonly kind: "Varying" | "Uniform" }[];
  readonly counts: readonly string[];
  readonly helpers: ReadonlyMap<string, Helper>;
  readonly body: readonly Statement[];
}

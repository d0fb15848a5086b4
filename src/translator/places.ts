// Index arithmetic at build time: every index is a known part plus, where counts are open, code that computes the rest.
import type { Expression, Test } from "./tree.js";
import { type Code, i32, integer, select } from "./wasm.js";

/** known + what `rest` leaves on the stack (never negative). */
export interface Place {
  readonly known: number;
  readonly rest: Code | null;
}

export const knownPlace = (known: number): Place => ({ known, rest: null });

export const codeOf = ({ known, rest }: Place): Code => {
  if (rest === null) return integer(known);
  return known === 0 ? rest : [...rest, ...integer(known), ...i32.add];
};

export function evaluatePlace(node: Expression, lookUp: (name: string) => Place): Place {
  if (node.form === "constant") return knownPlace(node.value);
  if (node.form === "name") return lookUp(node.name);
  if (node.form === "choice")
    return chosen(node.test, evaluatePlace(node.met, lookUp), evaluatePlace(node.otherwise, lookUp), lookUp);
  if (node.form !== "binary") throw new Error(`no place: ${node.form}`);
  const left = evaluatePlace(node.left, lookUp);
  const right = evaluatePlace(node.right, lookUp);
  if (node.operator === "+") return sum(left, right);
  if (node.operator === "*") return product(left, right);
  return remainder(left, right);
}

function sum(left: Place, right: Place): Place {
  const known = left.known + right.known;
  if (left.rest === null || right.rest === null) return { known, rest: left.rest ?? right.rest };
  return { known, rest: [...left.rest, ...right.rest, ...i32.add] };
}

function product(left: Place, right: Place): Place {
  if (right.rest === null) return times(left, right.known);
  if (left.rest === null) return times(right, left.known);
  return { known: 0, rest: [...codeOf(left), ...codeOf(right), ...i32.multiply] };
}

export function times({ known, rest }: Place, factor: number): Place {
  if (rest === null || factor === 0) return knownPlace(known * factor);
  if (factor === 1) return { known, rest };
  const shift = Math.log2(factor);
  const scaled = Number.isInteger(shift)
    ? [...integer(shift), ...i32.shiftLeft]
    : [...integer(factor), ...i32.multiply];
  return { known: known * factor, rest: [...rest, ...scaled] };
}

function remainder(left: Place, right: Place): Place {
  if (left.rest === null && right.rest === null) return knownPlace(left.known % right.known);
  return { known: 0, rest: [...codeOf(left), ...codeOf(right), ...i32.remainder] };
}

/** The smaller known part is kept outside the choice, so that an index never loses its lower bound. */
function chosen(test: Test, met: Place, otherwise: Place, lookUp: (name: string) => Place): Place {
  const outcome = evaluateTest(test, lookUp);
  if (typeof outcome === "boolean") return outcome ? met : otherwise;
  const known = Math.min(met.known, otherwise.known);
  const above = (place: Place): Code => codeOf({ known: place.known - known, rest: place.rest });
  return { known, rest: [...above(met), ...above(otherwise), ...outcome, ...select] };
}

/** The outcome where it is known at build time, else code that leaves it on the stack. */
export function evaluateTest({ operator, left, right }: Test, lookUp: (name: string) => Place): boolean | Code {
  const [a, b] = [evaluatePlace(left, lookUp), evaluatePlace(right, lookUp)];
  if (a.rest === null && b.rest === null) {
    if (operator === "===") return a.known === b.known;
    return operator === "<" ? a.known < b.known : a.known > b.known;
  }
  const comparison = { "<": i32.less, ">": i32.greater, "===": i32.equal }[operator];
  return [...codeOf(a), ...codeOf(b), ...comparison];
}

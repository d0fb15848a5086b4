// From the program to steps. Counters of loops that stay loops, and indexes not known at build time, are 32-bit locals.
import { TRACE } from "./layout.js";
import { codeOf, constantPlace, evaluatePlace, evaluateTest, type Place } from "./places.js";
import type { Hoisted, LaneCode, Slot, Step } from "./steps.js";
import type { Expression, Helper, Program, Statement, Target } from "./tree.js";
import { type Code, get } from "./wasm.js";

type Binding =
  | { readonly kind: "Index"; readonly place: Place; readonly counter: number | null }
  | { readonly kind: "Value"; readonly value: LaneCode }
  | { readonly kind: "Slot"; readonly slot: Slot };

type Scope = Map<string, Binding>;

export interface Unrolled {
  readonly steps: readonly Step[];
  /** Counts that stay parameters, in order. */
  readonly open: readonly string[];
  /** 32-bit locals after the parameters. */
  readonly counters: number;
}

export function unroll(
  program: Program,
  constantCounts: Readonly<Record<string, number>>,
  firstCount: number,
): Unrolled {
  return new Unrolling(program, constantCounts, firstCount).run();
}

class Unrolling {
  private steps: Step[] = [];
  private readonly cells = new Map<number, Slot>();
  private readonly open: string[];
  private counters = 0;
  private leastOpenPlace = Number.POSITIVE_INFINITY;

  constructor(
    private readonly program: Program,
    private readonly constantCounts: Readonly<Record<string, number>>,
    private readonly firstCount: number,
  ) {
    this.open = program.counts.filter((count) => constantCounts[count] === undefined);
  }

  run(): Unrolled {
    const scope: Scope = new Map();
    for (const [count, value] of Object.entries(this.constantCounts))
      scope.set(count, { kind: "Index", place: constantPlace(value), counter: null });
    this.open.forEach((count, i) => {
      scope.set(count, { kind: "Index", place: { constant: 0, rest: get(this.firstCount + i) }, counter: null });
    });
    this.block(this.program.body, scope);
    for (const cell of this.cells.keys()) {
      if (cell >= this.leastOpenPlace)
        throw new Error(`state cell ${cell} may also be reached by an index not known at build time`);
    }
    return { steps: this.steps, open: this.open, counters: this.counters };
  }

  /** True where the block was left. */
  private block(statements: readonly Statement[], outer: Scope): boolean {
    const scope: Scope = new Map(outer);
    return statements.some((statement) => this.statement(statement, scope));
  }

  private statement(node: Statement, scope: Scope): boolean {
    if (node.form === "declare") this.declare(node, scope);
    else if (node.form === "assign") this.assign(node.target, node.value, scope);
    else if (node.form === "loop") this.loop(node, scope);
    else if (node.form === "leave") return true;
    else {
      const outcome = evaluateTest(node.test, this.places(scope));
      if (typeof outcome === "boolean") return outcome && this.block(node.body, scope);
      this.branch(outcome, node.body, scope);
    }
    return false;
  }

  /** A branch on a count that is open at build time: a loop of one round or none, for a comparison leaves 1 or 0. */
  private branch(outcome: Code, body: readonly Statement[], scope: Scope): void {
    const outer = this.steps;
    this.steps = [];
    const counter = this.counter();
    if (this.block(body, scope)) throw new Error("a loop can be left only by an index known at build time");
    outer.push({
      form: "repeat",
      counter,
      from: constantPlace(0),
      below: { constant: 0, rest: outcome },
      body: this.steps,
    });
    this.steps = outer;
  }

  private places(scope: Scope): (name: string) => Place {
    return (name) => {
      const found = scope.get(name);
      if (found?.kind !== "Index") throw new Error(`${name} is no Index`);
      return found.place;
    };
  }

  private counter(): number {
    return this.firstCount + this.open.length + this.counters++;
  }

  private declare({ name, kind, changes, value }: Statement & { form: "declare" }, scope: Scope): void {
    if (kind === "Index") this.declareIndex(name, changes, evaluatePlace(value, this.places(scope)), scope);
    else if (kind === "Varying") {
      const slot: Slot = { name, cell: null };
      this.steps.push({ form: "set", slot, value: this.lane(value, scope) });
      scope.set(name, { kind: "Slot", slot });
    } else scope.set(name, { kind: "Value", value: this.hoisted(name, this.lane(value, scope)) });
  }

  /** What all lanes share is computed once and stored, unless it is a memory cell already. */
  private hoisted(name: string, value: LaneCode): LaneCode {
    if (value.form === "shared") return value;
    const hoisted: Hoisted = { name };
    this.steps.push({ form: "hoist", hoisted, value });
    return { form: "hoisted", hoisted };
  }

  private declareIndex(name: string, changes: boolean, place: Place, scope: Scope): void {
    if (place.rest === null && !changes) {
      scope.set(name, { kind: "Index", place, counter: null });
      return;
    }
    const counter = this.counter();
    this.steps.push({ form: "count", counter, again: false, value: codeOf({ constant: 0, rest: place.rest }) });
    scope.set(name, { kind: "Index", place: { constant: place.constant, rest: get(counter) }, counter });
  }

  private assign(target: Target, value: Expression, scope: Scope): void {
    if (target.form === "cell") {
      this.store(target, this.lane(value, scope), scope);
      return;
    }
    const found = scope.get(target.name) as Binding;
    if (found.kind === "Slot") {
      this.steps.push({ form: "set", slot: found.slot, value: this.lane(value, scope) });
      return;
    }
    if (found.kind !== "Index" || found.counter === null) throw new Error(`${target.name} cannot change`);
    const { constant, rest } = evaluatePlace(value, this.places(scope));
    if (constant < found.place.constant) throw new Error(`${target.name} may fall below where it began`);
    this.steps.push({
      form: "count",
      counter: found.counter,
      again: true,
      value: codeOf({ constant: constant - found.place.constant, rest }),
    });
  }

  private store({ array, index }: Target & { form: "cell" }, value: LaneCode, scope: Scope): void {
    const place = evaluatePlace(index, this.places(scope));
    if (array !== TRACE && place.rest === null)
      this.steps.push({ form: "set", slot: this.cell(place.constant), value });
    else {
      if (array !== TRACE) this.leastOpenPlace = Math.min(this.leastOpenPlace, place.constant);
      this.steps.push({ form: "write", array, place, value });
    }
  }

  private cell(place: number): Slot {
    const slot = this.cells.get(place) ?? { name: `cell ${place}`, cell: place };
    this.cells.set(place, slot);
    return slot;
  }

  private loop({ name, from, below, body }: Statement & { form: "loop" }, scope: Scope): void {
    const start = evaluatePlace(from, this.places(scope));
    const end = evaluatePlace(below, this.places(scope));
    if (start.rest === null && end.rest === null) {
      this.steps.push({ form: "pause", name });
      for (let i = start.constant; i < end.constant; i++) {
        if (this.block(body, new Map(scope).set(name, { kind: "Index", place: constantPlace(i), counter: null })))
          break;
        this.steps.push({ form: "pause", name });
      }
      this.steps.push({ form: "pause", name });
      return;
    }
    const outer = this.steps;
    this.steps = [];
    const counter = this.counter();
    this.block(
      body,
      new Map(scope).set(name, { kind: "Index", place: { constant: 0, rest: get(counter) }, counter: null }),
    );
    outer.push({ form: "repeat", counter, from: start, below: end, body: this.steps });
    this.steps = outer;
  }

  private lane(node: Expression, scope: Scope): LaneCode {
    switch (node.form) {
      case "constant":
        return { form: "constant", value: node.value };
      case "name": {
        const found = scope.get(node.name) as Binding;
        if (found.kind === "Index") throw new Error(`${node.name} is an Index`);
        return found.kind === "Slot" ? { form: "slot", slot: found.slot } : found.value;
      }
      case "cell":
        return this.load(node, scope);
      case "binary":
        return {
          form: "arithmetic",
          operator: node.operator as "+",
          left: this.lane(node.left, scope),
          right: this.lane(node.right, scope),
        };
      case "negative":
        return { form: "negative", of: this.lane(node.of, scope) };
      case "choice":
        return this.choice(node, scope);
      case "call":
        return this.call(this.program.helpers.get(node.helper) as Helper, node.values, scope);
    }
  }

  private load({ array, kind, index }: Expression & { form: "cell" }, scope: Scope): LaneCode {
    const place = evaluatePlace(index, this.places(scope));
    if (kind === "Uniform") return { form: "shared", array, place };
    if (array === TRACE) return { form: "sample", place };
    if (place.rest === null) return { form: "slot", slot: this.cell(place.constant) };
    this.leastOpenPlace = Math.min(this.leastOpenPlace, place.constant);
    return { form: "state", place };
  }

  private choice({ test, met, otherwise }: Expression & { form: "choice" }, scope: Scope): LaneCode {
    if (test.left.kind === "Index" || test.right.kind === "Index") {
      const outcome = evaluateTest(test, this.places(scope));
      if (typeof outcome !== "boolean") throw new Error("lanes can only be chosen by an index known at build time");
      return this.lane(outcome ? met : otherwise, scope);
    }
    const [left, right] = [this.lane(test.left, scope), this.lane(test.right, scope)];
    return {
      form: "choice",
      operator: test.operator,
      left,
      right,
      met: this.lane(met, scope),
      otherwise: this.lane(otherwise, scope),
    };
  }

  /** A helper's body with its parameters' values in their places; each value is computed once. */
  private call(helper: Helper, values: readonly Expression[], scope: Scope): LaneCode {
    const inner: Scope = new Map();
    const codes = values.map((value) => this.lane(value, scope));
    const operator = extremeOf(helper);
    const [first, second] = codes;
    if (operator !== null && first !== undefined && second !== undefined)
      return { form: "extreme", operator, left: first, right: second };
    helper.parameters.forEach((parameter, i) => {
      const slot: Slot = { name: parameter, cell: null };
      this.steps.push({ form: "set", slot, value: codes[i] as LaneCode });
      inner.set(parameter, { kind: "Slot", slot });
    });
    return this.lane(helper.body, inner);
  }
}

/** (a, b) => a < b ? a : b, or the same with >: one instruction does it. */
function extremeOf({ parameters, body }: Helper): "<" | ">" | null {
  if (body.form !== "choice" || body.test.operator === "===") return null;
  const parts = [body.test.left, body.test.right, body.met, body.otherwise];
  const order = parts.map((part) => (part.form === "name" ? parameters.indexOf(part.name) : -1));
  return order.join() === "0,1,0,1" ? body.test.operator : null;
}

// From steps to WebAssembly. Each segment runs for the pairs of lanes, some of them interleaved; what it works on is in
// locals, what other segments need in memory.
import { type Address, Layout, loadAt, sample, TRACE } from "./layout.js";
import { codeOf, type Place } from "./places.js";
import { liveOut, type Part, segmentsOf, slotsSet } from "./segments.js";
import type { LaneCode, Slot, Step } from "./steps.js";
import type { Program } from "./tree.js";
import { unroll } from "./unroll.js";
import { type Code, drop, f64x2, get, I32, i32, loop, set, tee, V128, v128, type WasmFunction } from "./wasm.js";

export interface Settings {
  readonly name: string;
  /** Counts known at build time. */
  readonly counts: Readonly<Record<string, number>>;
  /** Vectors of two lanes. */
  readonly pairs: number;
  /** Pairs interleaved statement by statement: they share what is loaded for all lanes. */
  readonly interleave: number;
  /** Operations after which a segment may end. */
  readonly segmentSize: number;
}

export function lower(program: Program, settings: Settings): WasmFunction {
  return new Lowering(program, settings).run();
}

/** The interleaved pairs of lanes of one segment, and the locals that hold their numbers. */
interface Frame {
  readonly pairs: readonly { readonly pair: number; readonly slots: Map<Slot, number> }[];
  readonly shared: Map<string, number>;
}

class Lowering {
  private readonly types: number[] = [];
  private out: number[] = [];
  private liveOut: ReadonlySet<Slot> = new Set();
  private readonly layout: Layout;
  private readonly traces: number[] = [];

  constructor(
    private readonly program: Program,
    private readonly settings: Settings,
  ) {
    this.layout = new Layout(program, settings.counts, settings.pairs);
  }

  run(): WasmFunction {
    const { steps, counters } = unroll(this.program, this.settings.counts, this.layout.firstCount);
    for (let i = 0; i < counters; i++) this.local(I32);
    this.tracePointers();
    const parts = segmentsOf(steps, this.settings.segmentSize);
    this.liveOut = liveOut(parts);
    this.parts(parts);
    return { name: this.settings.name, parameters: this.layout.parameters, locals: this.types, body: this.out };
  }

  private local(type: number): number {
    return this.layout.parameters + this.types.push(type) - 1;
  }

  /** Every lane's trace is contiguous. */
  private tracePointers(): void {
    if (!this.program.arrays.some(({ name }) => name === TRACE)) return;
    let before = this.layout.pointer(TRACE);
    for (let lane = 0; lane < 2 * this.settings.pairs; lane++) {
      const local = this.local(I32);
      this.out.push(...before, ...set(local));
      before = [...get(local), ...this.layout.stride, ...i32.add];
      this.traces.push(local);
    }
  }

  private parts(parts: readonly Part[]): void {
    for (const part of parts) {
      if (part.form === "segment") this.segment(part.steps);
      else this.inLoop(part.loop.counter, part.loop.from, part.loop.below, () => this.parts(part.parts));
    }
  }

  private inLoop(counter: number, from: Place, below: Place, body: () => void): void {
    const outer = this.out;
    this.out = [];
    body();
    this.out = [...outer, ...loop(counter, codeOf(from), codeOf(below), this.out)];
  }

  private segment(steps: readonly Step[]): void {
    this.counts(steps);
    const { pairs, interleave } = this.settings;
    for (let first = 0; first < pairs; first += interleave) {
      const count = Math.min(interleave, pairs - first);
      const frame = Array.from({ length: count }, (_, i) => ({ pair: first + i, slots: new Map<Slot, number>() }));
      this.steps(steps, { pairs: frame, shared: new Map() }, lastSets(steps));
    }
  }

  private counts(steps: readonly Step[]): void {
    for (const step of steps) if (step.form === "count") this.out.push(...step.value, ...set(step.counter));
  }

  private steps(steps: readonly Step[], frame: Frame, stored: ReadonlyMap<Slot, Step>): void {
    for (const step of steps) {
      if (step.form === "hoist") this.hoist(step, frame);
      else if (step.form === "repeat") this.shortLoop(step, frame, stored);
      else if (step.form === "set") this.set(step, frame, stored);
      else if (step.form === "write") this.write(step, frame);
    }
  }

  private hoist({ hoisted, value }: Step & { form: "hoist" }, frame: Frame): void {
    if (frame.pairs[0]?.pair !== 0) return;
    this.store(this.layout.hoisted(hoisted), this.lane(value, 0, frame));
  }

  private shortLoop(step: Step & { form: "repeat" }, frame: Frame, stored: ReadonlyMap<Slot, Step>): void {
    // What the body changes must be in locals before it, since it may not run at all.
    const changed = [...slotsSet(step.body)].filter((slot) => this.liveOut.has(slot));
    frame.pairs.forEach(({ slots }, i) => {
      for (const slot of changed) if (!slots.has(slot)) this.out.push(...this.slot(slot, i, frame), ...drop);
    });
    this.inLoop(step.counter, step.from, step.below, () => {
      this.counts(step.body);
      const pairs = frame.pairs.map(({ pair, slots }) => ({ pair, slots: new Map(slots) }));
      this.steps(step.body, { pairs, shared: new Map(frame.shared) }, new Map());
    });
    for (const slot of changed) {
      if (stored.get(slot) !== step) continue;
      for (const { pair, slots } of frame.pairs)
        this.store(this.layout.slot(slot, pair), get(slots.get(slot) as number));
    }
  }

  private store({ base, offset }: Address, value: Code): void {
    this.out.push(...base, ...value, ...v128.store(offset));
  }

  private set(step: Step & { form: "set" }, frame: Frame, stored: ReadonlyMap<Slot, Step>): void {
    const isLiveOut = stored.get(step.slot) === step && this.liveOut.has(step.slot);
    frame.pairs.forEach(({ pair, slots }, i) => {
      const value = this.lane(step.value, i, frame);
      const local = slots.get(step.slot) ?? this.local(V128);
      slots.set(step.slot, local);
      if (isLiveOut) this.store(this.layout.slot(step.slot, pair), [...value, ...tee(local)]);
      else this.out.push(...value, ...set(local));
    });
  }

  private write({ array, place, value }: Step & { form: "write" }, frame: Frame): void {
    frame.pairs.forEach(({ pair }, i) => {
      const code = this.lane(value, i, frame);
      if (array === TRACE) this.trace(place, pair, code);
      else this.store(this.layout.cell(place, pair), code);
    });
  }

  /** The halves of the vector go to two traces. */
  private trace(place: Place, pair: number, value: Code): void {
    const local = this.local(V128);
    this.out.push(...value, ...set(local));
    for (const half of [0, 1]) {
      const { base, offset } = sample(get(this.traces[2 * pair + half] as number), place);
      this.out.push(...base, ...get(local), ...v128.storeHalf(half, offset));
    }
  }

  private sample(place: Place, pair: number): Code {
    const [first, second] = [0, 1].map((half) => sample(get(this.traces[2 * pair + half] as number), place));
    if (first === undefined || second === undefined) throw new Error("a pair has two lanes");
    return [...second.base, ...first.base, ...v128.loadHalf(first.offset), ...v128.loadOther(second.offset)];
  }

  private slot(slot: Slot, i: number, frame: Frame): Code {
    const { pair, slots } = frame.pairs[i] as Frame["pairs"][number];
    const cached = slots.get(slot);
    if (cached !== undefined) return get(cached);
    const local = this.local(V128);
    slots.set(slot, local);
    return [...loadAt(this.layout.slot(slot, pair)), ...tee(local)];
  }

  /** Code that leaves the value for the frame's i-th pair on the stack. */
  private lane(node: LaneCode, i: number, frame: Frame): Code {
    const lane = (part: LaneCode) => this.lane(part, i, frame);
    switch (node.form) {
      case "constant":
        return v128.constant(node.value);
      case "slot":
        return this.slot(node.slot, i, frame);
      case "hoisted":
        return this.once(frame, loadAt(this.layout.hoisted(node.hoisted)));
      case "shared":
        return this.once(frame, this.layout.shared(node.array, node.place));
      case "state":
        return loadAt(this.layout.cell(node.place, frame.pairs[i]?.pair as number));
      case "sample":
        return this.sample(node.place, frame.pairs[i]?.pair as number);
      case "negative":
        return [...lane(node.of), ...f64x2.negate];
      case "arithmetic":
        return [...lane(node.left), ...lane(node.right), ...ARITHMETIC[node.operator]];
      case "extreme": {
        const first = this.local(V128);
        return [
          ...lane(node.left),
          ...set(first),
          ...lane(node.right),
          ...get(first),
          ...(node.operator === "<" ? f64x2.pmin : f64x2.pmax),
        ];
      }
      case "choice":
        return choice(node, lane);
    }
  }

  /** What all lanes share is loaded once for the pairs of a frame. */
  private once({ shared }: Frame, load: Code): Code {
    const key = load.join();
    const cached = shared.get(key);
    if (cached !== undefined) return get(cached);
    const local = this.local(V128);
    shared.set(key, local);
    return [...load, ...tee(local)];
  }
}

/** The step of this list that sets a slot last, which may be a short loop. */
function lastSets(steps: readonly Step[]): ReadonlyMap<Slot, Step> {
  const last = new Map<Slot, Step>();
  for (const step of steps) {
    if (step.form === "set") last.set(step.slot, step);
    if (step.form === "repeat") for (const slot of slotsSet(step.body)) last.set(slot, step);
  }
  return last;
}

const ARITHMETIC = { "+": f64x2.add, "-": f64x2.subtract, "*": f64x2.multiply, "/": f64x2.divide } as const;
const COMPARISON = { "<": f64x2.less, ">": f64x2.greater, "===": f64x2.equal } as const;

function choice(
  { operator, left, right, met, otherwise }: LaneCode & { form: "choice" },
  lane: (part: LaneCode) => Code,
): Code {
  if (isZero(met)) return [...lane(otherwise), ...lane(left), ...lane(right), ...COMPARISON[operator], ...v128.andNot];
  if (isZero(otherwise)) return [...lane(met), ...lane(left), ...lane(right), ...COMPARISON[operator], ...v128.and];
  return [...lane(met), ...lane(otherwise), ...lane(left), ...lane(right), ...COMPARISON[operator], ...v128.bitselect];
}

const isZero = (node: LaneCode): boolean => node.form === "constant" && Object.is(node.value, 0);

// The loop of loop.ts as WebAssembly, translated at build time: several trials at once in the lanes of vectors, each with the
// bits it would have alone. A kernel's memory holds one rig at a time.
import {
  DOUBLE,
  LANES,
  NARROW_PAIRS,
  PAGE,
  PAIRS,
  passFunction,
  segmentFunction,
  VECTOR,
} from "../base/vector-layout.js";
import type { Pass } from "../response/reader.js";
import { SUMS_SIZE } from "../response/sums.js";
import * as m from "./memory.js";
import type { Rig } from "./rig.js";
import type { Segment } from "./segments.js";

/** What one module is made for: a craft, and yaw under test (1) or one of the others. */
export interface KernelShape extends Pick<m.Shape, "rotors" | "coupled" | "extended"> {
  readonly yaw: 0 | 1;
}

/** The module that simulates a rig. */
export const kernelShapeOf = ({ shape, axis }: Pick<Rig, "shape" | "axis">): KernelShape => ({
  ...shape,
  yaw: axis === 2 ? 1 : 0,
});

export interface VectorKernel {
  /** Trials simulated at once, at most. */
  readonly lanes: number;
  /**
   * Copies what all trials of a rig share into the kernel's memory; the rig mounted before is replaced. Many trials at once,
   * and few: both work in the same memory, so that a trial of one is over when the other restarts.
   */
  mount(rig: Rig): { readonly wide: LoadedRig; readonly narrow: LoadedRig };
}

/** A rig in so many lanes. */
export interface LoadedRig {
  readonly lanes: number;
  /** rad/s of the axis under test at each sampling instant, one per lane. */
  readonly traces: readonly Float64Array[];
  /** One number of one lane's state, placed by memory.ts. */
  get(lane: number, place: number): number;
  set(lane: number, place: number, value: number): void;
  /** All lanes to the rig's start. */
  restart(): void;
  /** All lanes through a segment. */
  advance(segment: Segment): void;
  /** A pass over all lanes' traces. */
  carryOut(pass: Pass): void;
  /** A result of a pass for one lane, at a place of sums.ts. */
  sum(lane: number, place: number): number;
}

type Exported = (...pointersAndCounts: number[]) => void;

// As much of WebAssembly as is used here: its types come with the browsers' library only.
interface Memory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}
declare const WebAssembly: {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Memory: new (size: { initial: number }) => Memory;
  readonly Instance: new (code: object, imports: object) => { readonly exports: Record<string, Exported> };
};

const LINE = 64; // bytes of the processor's cache

/** The kernel whose code this is. Throws where the machine cannot run it. */
export function vectorKernelOf(code: Uint8Array): VectorKernel {
  const memory = new WebAssembly.Memory({ initial: 1 });
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(code), { env: { memory } });
  return { lanes: LANES, mount: (rig) => loadRig(rig, memory, exports) };
}

function loadRig(rig: Rig, memory: Memory, exports: Record<string, Exported>): ReturnType<VectorKernel["mount"]> {
  const { craft, drive } = rig;
  const layout = layoutOf(rig);
  if (memory.buffer.byteLength < layout.end) memory.grow(Math.ceil((layout.end - memory.buffer.byteLength) / PAGE));
  const numbers = new Float64Array(memory.buffer);
  craft.forEach((value, place) => {
    numbers.fill(value, layout.craft / DOUBLE + 2 * place, layout.craft / DOUBLE + 2 * place + 2);
  });
  numbers.set(drive.values, layout.drive / DOUBLE);
  const slots = new SharedSlots(numbers, layout.slots, layout.slotSize);
  const inPairs = (pairs: number) => loadedRig(rig, pairs, { memory, exports, layout, numbers, slots });
  return { wide: inPairs(PAIRS), narrow: inPairs(NARROW_PAIRS) };
}

interface Loaded {
  readonly memory: Memory;
  readonly exports: Record<string, Exported>;
  readonly layout: ReturnType<typeof layoutOf>;
  readonly numbers: Float64Array;
  readonly slots: SharedSlots;
}

function loadedRig(rig: Rig, pairs: number, { memory, exports, layout, numbers, slots }: Loaded): LoadedRig {
  const { shape, start, axis } = rig;
  const lanes = 2 * pairs;
  const state = numbers.subarray(layout.state / DOUBLE, layout.state / DOUBLE + start.length * lanes);
  const pointers = [layout.craft, layout.drive, layout.state, layout.trace, layout.stride] as const;
  const counts = [
    shape.sensorStages,
    shape.derivativeStages,
    ...(shape.extended === 1 ? [shape.dutyBends, shape.movingSensorStages, shape.movingDerivativeStages] : []),
    shape.delaySteps,
    shape.substeps,
    shape.olderSteps,
  ];
  const sums = numbers.subarray(layout.sums / DOUBLE, layout.sums / DOUBLE + SUMS_SIZE * lanes);
  return {
    lanes,
    traces: Array.from({ length: lanes }, (_, lane) => {
      return new Float64Array(memory.buffer, layout.trace + lane * layout.stride, rig.steps);
    }),
    get: (lane, place) => state[place * lanes + lane],
    set: (lane, place, value) => {
      state[place * lanes + lane] = value;
    },
    restart: () => {
      for (let place = 0; place < start.length; place++) state.fill(start[place], place * lanes, (place + 1) * lanes);
    },
    carryOut({ name, shared, given, counts: spans }) {
      for (let place = 0; place < given.length; place++) sums.fill(given[place], place * lanes, (place + 1) * lanes);
      const pointer = shared === null ? [] : [slots.pointerTo(shared)];
      exports[passFunction(name, pairs)](...pointer, layout.sums, layout.trace, layout.stride, ...spans);
    },
    sum: (lane, place) => sums[place * lanes + lane],
    advance: ({ kind, from, to }) => exports[segmentFunction(kind, axis, pairs)](...pointers, ...counts, from, to),
  };
}

/**
 * Byte offsets, in as many lanes as there are: the craft with every number twice, the drive, the lanes' states cell by cell, one trace after the other, the
 * lanes' sums cell by cell, and the slots of memories that passes share.
 */
function layoutOf({ shape, craft, drive, start, steps }: Rig) {
  const lines = (bytes: number): number => Math.ceil(bytes / LINE) * LINE;
  const state = PAGE + lines(VECTOR * craft.length);
  const driveAt = state + lines(DOUBLE * LANES * start.length);
  const trace = driveAt + lines(DOUBLE * m.driveWidth(shape) * drive.steps);
  // One line more than a trace needs: strides of whole pages would crowd the lanes into the same cache sets.
  const stride = lines(DOUBLE * steps) + LINE;
  const sums = trace + LANES * stride;
  const slots = sums + lines(DOUBLE * LANES * SUMS_SIZE);
  const slotSize = lines(DOUBLE * steps);
  return {
    craft: PAGE,
    state,
    drive: driveAt,
    trace,
    stride,
    sums,
    slots,
    slotSize,
    end: slots + SHARED_SLOTS * slotSize,
  };
}

const SHARED_SLOTS = 2; // a question shares two memories with its passes: commands and weights

/** Copies of the memories that passes share; each stays until another needs its slot. */
class SharedSlots {
  private readonly contents: (Float64Array | null)[] = Array(SHARED_SLOTS).fill(null);
  private next = 0;

  constructor(
    private readonly numbers: Float64Array,
    private readonly from: number,
    private readonly size: number, // bytes
  ) {}

  pointerTo(shared: Float64Array): number {
    let place = this.contents.indexOf(shared);
    if (place < 0) {
      place = this.next;
      this.next = (place + 1) % SHARED_SLOTS;
      this.contents[place] = shared;
      this.numbers.set(shared, (this.from + place * this.size) / DOUBLE);
    }
    return this.from + place * this.size;
  }
}

// The small function that src/translator/README.md carries through every stage: a first-order low-pass over a trace.
type Varying = number;
type Uniform = number;
type Index = number;
type VaryingMemory = Float64Array;
type UniformMemory = Float64Array;

const maximum = (a: Varying, b: Varying): Varying => (a > b ? a : b);

export function smooth(
  craft: UniformMemory,
  state: VaryingMemory,
  trace: VaryingMemory,
  stages: Index,
  to: Index,
): void {
  const share: Uniform = craft[0] / craft[1];
  for (let k: Index = 0; k < to; k++) {
    let y: Varying = trace[k];
    for (let s: Index = 0; s < stages; s++) {
      state[s] += share * (y - state[s]);
      y = state[s];
    }
    trace[k] = maximum(0, y);
  }
}

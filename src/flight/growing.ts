// Numbers that come one by one and nobody has counted: blocks, so that nothing is copied while they grow.
const BLOCK = 65_536;

export class GrowingNumbers {
  readonly #blocks: Float64Array[] = [];
  #last = new Float64Array(0);
  #length = 0;

  push(value: number): void {
    const place = this.#length % BLOCK;
    if (place === 0) {
      this.#last = new Float64Array(BLOCK);
      this.#blocks.push(this.#last);
    }
    this.#last[place] = value;
    this.#length++;
  }

  get length(): number {
    return this.#length;
  }

  /** NaN where there is none. */
  at(index: number): number {
    return this.#blocks[Math.floor(index / BLOCK)]?.[index % BLOCK] ?? Number.NaN;
  }

  /** All of them in one array; the blocks are let go one by one, and this holds none any more. */
  taken(): Float64Array {
    const all = new Float64Array(this.#length);
    for (let at = 0; at < this.#length; at += BLOCK)
      all.set((this.#blocks.shift() ?? new Float64Array(0)).subarray(0, this.#length - at), at);
    this.#length = 0;
    return all;
  }
}

// Passages of a signal through zero, each believed only once the signal has gone beyond a threshold on the other side:
// noise about zero does not count, and the threshold does not shift the dates.

export class Passages {
  count = 0;
  private first = 0;
  private beforeLast = 0;
  private last = 0;
  private side = 0;
  private sign = 0;
  private changed = 0;

  constructor(private readonly threshold: number) {}

  /** Takes the next sample; `k` rises from call to call. */
  see(value: number, k: number): void {
    const sign = value > 0 ? 1 : -1;
    if (sign !== this.sign) {
      this.sign = sign;
      this.changed = k;
    }
    if (sign === this.side || value * sign <= this.threshold) return;
    if (this.side !== 0) {
      if (this.count === 0) this.first = this.changed;
      this.beforeLast = this.last;
      this.last = this.changed;
      this.count++;
    }
    this.side = sign;
  }

  /** Mean frequency, Hz; 0 with fewer than two passages. Over whole cycles where there is one: halves may be unequal. */
  frequency(period: number): number {
    if (this.count < 2) return 0;
    const odd = this.count > 2 && this.count % 2 === 0;
    const halves = odd ? this.count - 2 : this.count - 1;
    return halves / 2 / (((odd ? this.beforeLast : this.last) - this.first) * period);
  }
}

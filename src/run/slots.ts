// A counting semaphore: so many at once, the others wait in the order they came.

export interface Slots {
  /** Waits for a slot; the function it returns frees the slot. */
  enter(): Promise<() => void>;
}

export function slotsFor(count: number): Slots {
  let free = count;
  const waiting: (() => void)[] = [];
  const leave = (): void => {
    const next = waiting.shift();
    if (next === undefined) free++;
    else next();
  };
  return {
    async enter() {
      if (free > 0) free--;
      else await new Promise<void>((resolve) => waiting.push(resolve));
      return leave;
    },
  };
}

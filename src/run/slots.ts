// So many at once, whoever asks: the others wait in the order they came.

export interface Slots {
  /** Waits for a slot; what it gives hands the slot on. */
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

// How long a task may run. Only the time this process really ran counts: while it was suspended, or the machine slept,
// no time passes. The limit follows the task's size and the speed of the tasks before it.

/** The source of time; tests have their own. */
export interface Clock {
  now(): number; // ms
  /** Calls `act` at this interval; the function it returns stops that. */
  every(milliseconds: number, act: () => void): () => void;
}

const systemClock: Clock = {
  now: () => performance.now(),
  every(milliseconds, act) {
    const timer = setInterval(act, milliseconds);
    return () => clearInterval(timer);
  },
};

const TICK = 250; // ms
/** The most that counts between two ticks: a longer gap was a suspension. */
const LONGEST_TICK = 1_000; // ms
/** Times what a task should take before it counts as hanging; it may wait behind another, on a busy machine. */
const SLACK = 10;
/** ms for a unit of work while nothing has been measured: the plain loop on a slow machine. */
const ASSUMED_PACE = 5e-4;

export interface GuardedTask {
  /** Arrives with the limit in ms once the task has run for longer. */
  readonly overdue: Promise<number>;
  end(finished: boolean): void;
}

interface Running {
  readonly work: number;
  readonly since: number;
  readonly expire: (limit: number) => void;
}

/** Guards tasks; `least` ms are granted to any. Work is counted in steps of a rotor, see taskWork. */
export function taskGuard(least: number, clock: Clock = systemClock): (work: number) => GuardedTask {
  const running = new Set<Running>();
  let counted = 0;
  let last = clock.now();
  let pace: number | null = null; // ms a unit of work, of the slowest task so far
  let stop: (() => void) | null = null;
  const count = (): number => {
    const now = clock.now();
    counted += Math.min(LONGEST_TICK, Math.max(0, now - last));
    last = now;
    return counted;
  };
  const tick = (): void => {
    const now = count();
    for (const { work, since, expire } of running) {
      const limit = Math.max(least, SLACK * work * (pace ?? ASSUMED_PACE));
      if (now - since > limit) expire(limit);
    }
  };
  return (work) => {
    if (running.size === 0) {
      last = clock.now();
      stop = clock.every(Math.min(TICK, least), tick);
    }
    let expire: (limit: number) => void = () => {};
    const overdue = new Promise<number>((resolve) => {
      expire = resolve;
    });
    const task = { work, since: count(), expire };
    running.add(task);
    return {
      overdue,
      end(finished) {
        if (finished && work > 0) pace = Math.max(pace ?? 0, (count() - task.since) / work);
        running.delete(task);
        if (running.size === 0) stop?.();
      },
    };
  };
}

// What may end many waits at any moment: a worker that is lost, an interruption.

export interface Ending {
  /** Ends all waits, those to come too; the first reason counts. */
  end(reason: string): void;
  /** What the work comes to, or the reason if that comes first. The work must not fail. */
  before<T>(work: Promise<T>): Promise<T | string>;
}

/** Not Promise.race: a promise that stays holds every promise it was ever raced with, and what that came to. */
export function ending(): Ending {
  let ended: string | null = null;
  const waiting = new Set<(reason: string) => void>();
  return {
    end(reason) {
      ended ??= reason;
      for (const leave of waiting) leave(ended);
      waiting.clear();
    },
    before<T>(work: Promise<T>): Promise<T | string> {
      const reason = ended;
      if (reason !== null) return Promise.resolve(reason);
      return new Promise((resolve) => {
        waiting.add(resolve);
        void work.then((value) => {
          waiting.delete(resolve);
          resolve(value);
        });
      });
    },
  };
}

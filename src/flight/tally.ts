// Remarks of one kind summed up: how many, where the first is, and the longest run of them.
export class Tally {
  count = 0;
  /** Index of the row at which the first was met. */
  first = -1;
  /** The longest run of rows one after another, and where it begins. */
  longest = 0;
  longestFrom = -1;
  #run = 0;
  #before = -2;

  add(row: number): void {
    if (this.count === 0) this.first = row;
    this.count++;
    this.#run = row === this.#before + 1 ? this.#run + 1 : 1;
    this.#before = row;
    if (this.#run <= this.longest) return;
    this.longest = this.#run;
    this.longestFrom = row - this.#run + 1;
  }
}

/** "1 row", "17 163 rows". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${grouped(count)} ${count === 1 ? one : many}`;

/** Thousands set apart by a space, whatever the machine's language. */
export const grouped = (count: number): string => String(count).replace(/\B(?=(\d{3})+$)/g, " ");

/** A share of all as people say it: "3 %", "under 0.1 %". */
export function shareText(share: number): string {
  const percent = 100 * share;
  if (percent > 0 && percent < 0.1) return "under 0.1 %";
  return `${percent < 10 ? percent.toFixed(1) : percent.toFixed(0)} %`;
}

/** The item at an index that is in range by construction. RangeError where it is not. */
export function at<T>(list: ArrayLike<T>, index: number): T {
  const item = list[index];
  if (item === undefined) throw new RangeError(`no item ${index} of ${list.length}`);
  return item;
}

/** As `at`, of numbers in one kind of array: as quick in an inner loop as a bare index. */
export function numberAt(list: Float64Array, index: number): number {
  const item = list[index];
  if (item === undefined) throw new RangeError(`no number ${index} of ${list.length}`);
  return item;
}

/** The last item of a list that is not empty. RangeError where it is. */
export const last = <T>(list: ArrayLike<T>): T => at(list, list.length - 1);

// A worker whose fault is thrown instead of returned.
export default function work() {
  throw new TypeError("thrown in the worker");
}

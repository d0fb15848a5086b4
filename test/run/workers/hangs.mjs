// A worker that never answers and never yields.
export default function work() {
  for (;;);
}

// Plain data bent in one place.

type Step = string | number;
type Branch = Record<Step, unknown>;

/** Sets what stands at a path ("axes.roll.verdicts.0"); undefined takes it away. */
export function put(path: string, value: unknown): (root: unknown) => void {
  const steps = path.split(".");
  const last = steps.pop() as string;
  return (root) => {
    const branch = steps.reduce((node, step) => node[step] as Branch, root as Branch);
    if (value === undefined) delete branch[last];
    else branch[last] = value;
  };
}

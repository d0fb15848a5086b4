// Modules that are loaded when a command is called: no command waits for those of the others.

/** The program's own modules, or the packages they need, are not there as they should be. */
export class NotLoaded extends Error {
  override readonly name = "NotLoaded";
  constructor(cause: unknown) {
    super("not loaded", { cause });
  }
}

/** The module of an import(). Throws NotLoaded. */
export async function loadModule<T>(module: Promise<T>): Promise<T> {
  try {
    return await module;
  } catch (error) {
    throw new NotLoaded(error);
  }
}

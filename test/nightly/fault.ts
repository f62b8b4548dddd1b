/** What a fuzz case showed to be wrong. */
export class Fault extends Error {
  override name = "Fault";
}

export function hold(holds: boolean, fault: () => string): void {
  if (!holds) throw new Fault(fault());
}

const watched = [Object, Array, String, Number, Function, RegExp, Map, Set, Promise, Error].map(
  (made) => [made.prototype, Object.getOwnPropertyDescriptors(made.prototype), namesOf(made.prototype).length] as const,
);

/** Names of what a prototype has; vega-lite gives sets a toJSON when it is loaded to draw. */
function namesOf(prototype: object): string[] {
  return Object.getOwnPropertyNames(prototype).filter((name) => !(prototype === Set.prototype && name === "toJSON"));
}

/** Holds that nothing was added to what all objects share, and nothing in it exchanged. */
export function holdPrototypes(): void {
  for (const [prototype, before, count] of watched) {
    const names = namesOf(prototype);
    hold(names.length === count, () => `a prototype has other properties: ${names.join(", ")}`);
    for (const name of ["toString", "constructor", "valueOf", "map", "test", "replace", "get"]) {
      if (!Object.hasOwn(before, name)) continue;
      const found = Object.getOwnPropertyDescriptor(prototype, name)?.value;
      hold(found === (before as PropertyDescriptorMap)[name]!.value, () => `a prototype has another ${name}`);
    }
  }
}

type ErrorClass = abstract new (...given: never[]) => Error;

/**
 * What a function gives, or the name of its error, if that is one of the classes that are documented for it; any other error is a
 * fault.
 */
export function outcome<T>(classes: readonly ErrorClass[], work: () => T): { value: T } | { error: Error } {
  try {
    return { value: work() };
  } catch (error) {
    // The class itself: a RangeError of the engine is none that was thrown on purpose.
    if (error instanceof Error && classes.some((known) => error.constructor === known)) {
      hold(error.message.trim() !== "", () => `${error.name} without a message`);
      return { error };
    }
    const { stack = String(error) } = error instanceof Error ? error : {};
    throw error instanceof Fault ? error : new Fault(`undocumented: ${stack}`);
  }
}

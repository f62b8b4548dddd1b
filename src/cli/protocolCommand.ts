import { nearestName } from "../nearestName.ts";
import { protocols } from "../protocol/protocols.ts";
import type { Io } from "./io.ts";
import { UsageError } from "./usageError.ts";

/** Prints a built-in protocol as JSON. */
export async function protocolCommand(name: string, io: Io): Promise<number> {
  const names = Object.keys(protocols);
  const found = Object.entries(protocols).find(([known]) => known === name);
  if (!found) {
    const nearest = nearestName(name, names);
    const help = nearest === null ? `There are: ${names.join(", ")}` : `Did you mean ${nearest}?`;
    throw new UsageError(`${name}: There is no built-in protocol of this name. ${help}`);
  }
  io.stdout.write(`${JSON.stringify(found[1], null, 2)}\n`);
  return 0;
}

import { open, stat } from "node:fs/promises";

/** A folder that is being read. */
export interface HeldFolder {
  /** Whether the path still leads to the same folder. */
  isThere(): Promise<boolean>;
  release(): Promise<void>;
}

/**
 * Keeps hold of a folder while it is read, so that one put in its place can be told from it: files of two folders are no campaign.
 * Where the system opens no folders (Windows), only a missing one is noticed.
 */
export async function holdFolder(folder: string): Promise<HeldFolder> {
  // Open, it keeps its number, which a removed folder might hand on to the next.
  const handle = await open(folder, "r").catch(() => null);
  return {
    async isThere() {
      const now = await stat(folder, { bigint: true }).catch(() => null);
      if (now === null || handle === null) return now !== null;
      const held = await handle.stat({ bigint: true });
      return now.ino === held.ino && now.dev === held.dev;
    },
    async release() {
      await handle?.close();
    },
  };
}

import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";

/**
 * Every file below a folder, hidden ones too; none where there is no folder.
 *
 * @returns {Map<string, Buffer>} By name relative to the folder, with `/`.
 */
export function filesBelow(folder) {
  const files = new Map();
  try {
    for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
      if (!entry.isFile()) continue;
      const path = join(entry.parentPath, entry.name);
      files.set(relative(folder, path).replaceAll(sep, "/"), readFileSync(path));
    }
  } catch (error) {
    if (error.code !== "ENOENT") throw error;
  }
  return files;
}

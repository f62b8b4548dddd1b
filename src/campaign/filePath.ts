/**
 * Name of a file relative to the folder, with `/`, or what is wrong with it. A sheet may name files below its folder only.
 */
export function filePath(written: string): { file: string } | { problem: string } {
  if (/\p{Cc}/u.test(written)) {
    return { problem: "the name contains a control character: write the name as the folder lists it" };
  }
  const slashes = written.replaceAll("\\", "/");
  const parts = slashes.split("/").filter((part) => part !== "" && part !== ".");
  // A drive may stand behind ./ too.
  if (slashes.startsWith("/") || /^[a-z]:/i.test(parts[0] ?? "")) {
    return { problem: "the path is absolute: name the file relative to the folder" };
  }
  if (parts.includes("..")) {
    return { problem: "the path leaves the folder (..): put the file into the folder and name it relative to it" };
  }
  if (parts.length === 0) return { problem: "this names no file" };
  return { file: parts.join("/") };
}

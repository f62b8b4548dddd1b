/** A file or folder that cannot be read or written. The message names it, says why and what to do. */
export class FileError extends Error {
  override name = "FileError";
  /** Stable, machine-readable: `not-found`, `not-a-folder`, `no-runs`, `no-space`, … */
  readonly code: string;

  constructor(code: string, message: string, options?: ErrorOptions) {
    super(message, options);
    this.code = code;
  }
}

const reasons: Record<string, [code: string, why: string]> = {
  ENOENT: ["not-found", "There is no such file or folder. Check the path."],
  EACCES: ["no-permission", "Permission denied. Ask for access, or use another folder."],
  EPERM: ["no-permission", "The system does not permit it. Ask for access, or use another folder."],
  EISDIR: ["is-a-folder", "This is a folder, not a file. Name a file."],
  ENOTDIR: ["not-a-folder", "A part of the path is a file, not a folder. Check the path."],
  EEXIST: ["exists", "A file of this name is in the way. Use another name."],
  ENOSPC: ["no-space", "No space is left on the disk. Make room, or use another disk."],
  EDQUOT: ["no-space", "Your share of the disk is used up. Make room, or use another disk."],
  EFBIG: ["no-space", "The file is larger than the disk or your account allows. Use another disk."],
  EBUSY: ["busy", "Another program has it open. Close it there, and try again."],
  ESTALE: ["gone", "It was removed or replaced on the network drive. Try again."],
  EROFS: ["read-only", "The disk can only be read. Use another folder."],
  EMFILE: ["too-many-open", "Too many files are open. Close other programs and try again."],
  ENAMETOOLONG: ["name-too-long", "The name is too long. Use a shorter one."],
  ELOOP: ["link-loop", "The links of this path lead in a circle. Name the file itself."],
  EIO: ["disk-fault", "The disk reports an error. Copy the data to another disk and check this one."],
};

/**
 * An error of the file system in words.
 *
 * @param error What `node:fs` threw. Anything else is returned as it is.
 * @param name The file as the user gave it.
 */
export function fileError(error: unknown, name: string): unknown {
  if (!(error instanceof Error) || !("syscall" in error)) return error;
  const errno = "code" in error ? String(error.code) : "";
  const [code, why] = reasons[errno] ?? ["file-system", `The system says ${errno || error.message}.`];
  return new FileError(code, `${name}: ${why}`, { cause: error });
}

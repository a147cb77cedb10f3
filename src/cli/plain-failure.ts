/** Trouble a user can fix: printed as its message alone, in one line, with a non-zero exit. */
export class PlainFailure extends Error {
  readonly exitCode: number;

  /** @param message what is wrong and what to do, in one line */
  constructor(message: string, exitCode = 2) {
    super(message);
    this.exitCode = exitCode;
  }
}

/** What went wrong with a file, in plain words. */
export function fileTrouble(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const known: Record<string, string> = {
    ENOENT: "there is no such file or folder",
    EACCES: "this account may not read or write it",
    EPERM: "this account may not read or write it",
    EISDIR: "it is a folder, not a file",
    ENOTDIR: "part of the path is a file, not a folder",
    ENOSPC: "the disk is full",
    EROFS: "the disk is read-only",
    EBUSY: "another program has it open",
    EEXIST: "something of that name is already there",
    ENAMETOOLONG: "the name is too long (an output has the name of its book or sheet: shorten that)",
    ELOOP: "links lead in a circle",
    ENXIO: "it is no file",
    EXDEV: "it would have to move to another disk",
    ENOTEMPTY: "something appeared there in the meantime",
    EIO: "the disk cannot be read or written",
    EMFILE: "too many files are open",
  };
  return known[code] ?? (error instanceof Error ? error.message : String(error));
}

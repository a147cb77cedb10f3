import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { PlainFailure } from "../plain-failure.ts";
import { freshName } from "./fresh-name.ts";

/** The file that says which run is writing in a folder. */
export const lockName = ".gramwright.lock";

/** how long another run is waited for, in milliseconds */
const patience = 5000;

const has = (error: unknown, code: string): boolean => error instanceof Error && "code" in error && error.code === code;

/** Whether the run that a lock names is still there. */
function isRunning(text: string): boolean {
  const id = Number(text);
  // a run before this one can have had the same number
  if (!Number.isSafeInteger(id) || id <= 0 || id === process.pid) return false;
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return has(error, "EPERM");
  }
}

/** Waits without doing anything else: what is locked is written at one go. */
const waitFor = (milliseconds: number): void =>
  void Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds);

/** Sets the lock whole or not at all, so that nobody reads one without its run. @throws EEXIST where another run has it */
function setLock(own: string, lock: string): void {
  try {
    linkSync(own, lock);
  } catch (error) {
    if (has(error, "EEXIST")) throw error;
    // a file system without links, such as a memory stick's
    writeFileSync(lock, String(process.pid), { flag: "wx" });
  }
}

/** Takes away the lock of a run that was ended. A lock that another run has set in the meantime is put back. */
function takeAway(lock: string, text: string, aside: string): void {
  try {
    renameSync(lock, aside);
    if (readFileSync(aside, "utf8") !== text) linkSync(aside, lock);
    rmSync(aside, { force: true });
  } catch (error) {
    if (!has(error, "ENOENT") && !has(error, "EEXIST")) throw error;
  }
}

/**
 * Does work in a folder while no other run of this program does.
 * @throws PlainFailure when another run does not come to its end, and what the work throws
 */
export function withFolderLock<T>(folder: string, work: () => T): T {
  const lock = join(folder, lockName);
  const own = join(folder, freshName());
  const until = performance.now() + patience;
  for (;;) {
    try {
      writeFileSync(own, String(process.pid), { flag: "wx" });
      setLock(own, lock);
      break;
    } catch (error) {
      if (!has(error, "EEXIST")) throw error;
    } finally {
      rmSync(own, { force: true });
    }
    let text = "";
    try {
      text = readFileSync(lock, "utf8");
    } catch (error) {
      if (!has(error, "ENOENT")) throw error;
      continue;
    }
    if (!isRunning(text)) takeAway(lock, text, own);
    else if (performance.now() > until) {
      throw new PlainFailure(
        `${folder}: another run (process ${text}) is writing there. Wait for it, or delete ${lock} if there is none.`,
      );
    } else waitFor(50);
  }
  try {
    return work();
  } finally {
    rmSync(lock, { force: true });
  }
}

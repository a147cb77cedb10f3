import { spawn } from "node:child_process";
import { print } from "../print.ts";

/**
 * Runs this program a second time with the same arguments and ends it at once when asked to, whatever it is working on:
 * what it writes is whole at any moment.
 * @returns the exit code: 0 when it was ended
 */
export function runGuarded(): Promise<number> {
  const child = spawn(process.execPath, [...process.execArgv, ...process.argv.slice(1)], {
    stdio: ["inherit", "inherit", "inherit", "ipc"],
  });
  return new Promise((resolve, reject) => {
    let isEnded = false;
    const end = (): void => {
      isEnded = true;
      child.kill("SIGKILL");
    };
    process.on("SIGINT", end).on("SIGTERM", end);
    child.on("error", reject);
    child.on("exit", (code, signal) => {
      process.off("SIGINT", end).off("SIGTERM", end);
      // Ctrl-C reaches both: which of them hears it first does not matter
      const isStopped = isEnded || signal === "SIGINT" || signal === "SIGTERM";
      if (isStopped) print("Stopped. The last report stays where it is.\n");
      resolve(isStopped ? 0 : (code ?? 70));
    });
  });
}

/** Whether this is the run that does the work. It ends when the one that guards it is gone. */
export function isGuarded(): boolean {
  if (process.send === undefined) return false;
  // one that was gone before this program began is not told of any more
  if (!process.connected) process.exit(0);
  process.on("disconnect", () => process.exit(0));
  process.channel?.unref();
  return true;
}

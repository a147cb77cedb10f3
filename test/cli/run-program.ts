import { spawnSync } from "node:child_process";
import { builtFile } from "../built-file.ts";

/** Runs the built program as a user would and returns what it printed. */
export function runProgram(...args: string[]): { status: number | null; out: string; err: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [builtFile("gramwright.js"), ...args], {
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  return { status, out: stdout, err: stderr };
}

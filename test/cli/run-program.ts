import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const program = fileURLToPath(new URL("../../dist/gramwright.js", import.meta.url));

/** Runs the built program as a user would and returns what it printed. */
export function runProgram(...args: string[]): { status: number | null; out: string; err: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  return { status, out: stdout, err: stderr };
}

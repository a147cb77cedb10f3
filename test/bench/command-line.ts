import { spawnSync } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const program = "dist/gramwright.js";
const measured = "./test/bench/measure-run.cjs";

/** What a run of the built program did. */
export interface Run {
  /** exit code; null where it was ended because it did not end */
  status: number | null;
  out: string;
  err: string;
  /** of the processor, its own: a busy machine does not count */
  seconds: number;
  /** the most memory it held, in MB */
  megabytes: number;
}

/** Runs the built program as a user would, and measures it. One that does not end is ended after five minutes: the machine may be busy. */
export function commandLine(args: ReadonlyArray<string>, options: { cwd?: string; uid?: number } = {}): Run {
  const file = join(tmpdir(), `gramwright-run-${process.pid}.json`);
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ["--require", join(process.cwd(), measured), join(process.cwd(), program), ...args],
    {
      ...{ encoding: "utf8", timeout: 300_000, killSignal: "SIGKILL", maxBuffer: 1 << 28 },
      ...{ stdio: ["ignore", "pipe", "pipe"], env: { ...process.env, MEASURE_INTO: file } },
      ...options,
    },
  );
  let facts = { seconds: 300, megabytes: 0 };
  try {
    facts = JSON.parse(readFileSync(file, "utf8"));
  } catch {
    // ended before it could say
  }
  rmSync(file, { force: true });
  return { status, out: stdout, err: stderr, ...facts };
}

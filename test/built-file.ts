import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { isBuildStale } from "../src/build/stale.mjs";

const root = fileURLToPath(new URL("../", import.meta.url));
let isReady = false;

/**
 * The path of a built file, built first where a source is newer, so that one test file run alone tests what is written.
 * @param name within dist/
 * @throws Error with the build's message if it fails
 */
export function builtFile(name: string): string {
  if (!isReady && isBuildStale()) {
    const program = 'import("./src/build/build.mjs").then(({ build }) => build())';
    const { status, stderr } = spawnSync(process.execPath, ["-e", program], { cwd: root, encoding: "utf8" });
    if (status !== 0) throw new Error(`the build fails: ${stderr}`);
  }
  isReady = true;
  return `${root}dist/${name}`;
}

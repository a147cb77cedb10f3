// Runs one of the project's TypeScript files with nothing but what is installed: bundles it and starts it.
// Usage: node src/build/run.mjs FILE.ts [arguments]
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { buildForNode } from "./build.mjs";

const file = process.argv[2];
if (!file) {
  console.error("Say which file to run: node src/build/run.mjs FILE.ts");
  process.exit(1);
}
// a folder for each run: two may go on side by side, also from clones that share their packages
const runs = fileURLToPath(new URL("../../.run/", import.meta.url));
mkdirSync(runs, { recursive: true });
const outdir = mkdtempSync(`${runs}run-`);
process.on("exit", () => rmSync(outdir, { recursive: true, force: true }));
const name = basename(file).replace(/\.tsx?$/, "");
await buildForNode({ entryPoints: { [name]: file }, outdir });
const program = `${outdir}/${name}.js`;
process.argv.splice(1, 2, program);
await import(pathToFileURL(program).href);

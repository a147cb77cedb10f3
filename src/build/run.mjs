// Runs one of the project's TypeScript files with nothing but what is installed: bundles it and starts it.
// Usage: node src/build/run.mjs FILE.ts [arguments]
import { basename } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { buildForNode } from "./build.mjs";

const file = process.argv[2];
if (!file) {
  console.error("Say which file to run: node src/build/run.mjs FILE.ts");
  process.exit(1);
}
const outdir = fileURLToPath(new URL("../../node_modules/.cache/gramwright-run/", import.meta.url));
const name = basename(file).replace(/\.tsx?$/, "");
await buildForNode({ entryPoints: { [name]: file }, outdir });
process.argv.splice(1, 2, file);
await import(`${pathToFileURL(outdir).href}${name}.js`);

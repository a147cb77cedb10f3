// Makes a clone ready to run: installs what is missing and, when asked, builds what is out of date.
// Plain JavaScript with nothing but Node, because it runs before anything is installed.
// Usage: node src/build/ready.mjs [build [--force] [--alone]]
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = new URL("../../", import.meta.url);
const at = (path) => fileURLToPath(new URL(path, root));
const changedAt = (path) => (existsSync(at(path)) ? statSync(at(path)).mtimeMs : 0);

/** The newest change under a folder, in milliseconds; build products and dot-folders are not looked at. */
function newestChange(folder) {
  return readdirSync(at(folder), { withFileTypes: true }).reduce((newest, entry) => {
    const path = `${folder}/${entry.name}`;
    return Math.max(newest, entry.isDirectory() ? newestChange(path) : changedAt(path));
  }, 0);
}

const [major, minor] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(
    `gramwright needs Node 20.19 or newer; this is ${process.versions.node}. Install a newer Node and run again.`,
  );
  process.exit(1);
}

if (changedAt("node_modules/.package-lock.json") < changedAt("package-lock.json")) {
  console.error("Installing what is missing (once) ...");
  const npm = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: at("."),
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (npm.status !== 0) {
    console.error("npm could not install the packages; its message is above. Check the network and run again.");
    process.exit(1);
  }
}

if (process.argv.includes("build")) {
  const newest = Math.max(
    ...["package.json", "package-lock.json"].map(changedAt),
    ...["src", "analyses", "data-samples"].map(newestChange),
  );
  if (process.argv.includes("--force") || changedAt("dist/gramwright.js") < newest) {
    const { build } = await import("./build.mjs");
    await build({ isAlone: process.argv.includes("--alone") });
  }
}

// Makes a clone ready to run: installs what is missing and, when asked, builds what is out of date.
// Plain JavaScript with nothing but Node, because it runs before anything is installed.
// Usage: node src/build/ready.mjs [build [--force] [--alone]]
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { changedAt, isBuildStale } from "./stale.mjs";

const root = fileURLToPath(new URL("../../", import.meta.url));

const [major, minor] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(
    `gramwright needs Node 20.19 or newer; this is ${process.versions.node}. Install a newer Node and run again.`,
  );
  process.exit(1);
}

if (changedAt("node_modules/.package-lock.json") < changedAt("package-lock.json")) {
  console.error("Installing what is missing (once) ...");
  // nothing that is installed runs anything of its own while it is
  const npm = spawnSync("npm", ["ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: root,
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (npm.status !== 0) {
    console.error("npm could not install the packages; its message is above. Check the network and run again.");
    process.exit(1);
  }
}

if (process.argv.includes("build") && (process.argv.includes("--force") || isBuildStale())) {
  const { build } = await import("./build.mjs");
  await build({ isAlone: process.argv.includes("--alone") });
}

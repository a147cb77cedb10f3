// Tells whether dist/ is older than what it is built from. Plain JavaScript with nothing but Node: it runs before a build.
import { existsSync, readdirSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = new URL("../../", import.meta.url);

/** When a file of the project was last changed, in milliseconds; 0 where there is none. */
export function changedAt(path) {
  const place = fileURLToPath(new URL(path, root));
  return existsSync(place) ? statSync(place).mtimeMs : 0;
}

/** The newest change under a folder, in milliseconds. */
function newestChange(folder) {
  return readdirSync(fileURLToPath(new URL(folder, root)), { withFileTypes: true }).reduce((newest, entry) => {
    const path = `${folder}/${entry.name}`;
    return Math.max(newest, entry.isDirectory() ? newestChange(path) : changedAt(path));
  }, 0);
}

/** Whether there is no build, or a source changed after it. */
export function isBuildStale() {
  const sources = [
    ...["package.json", "package-lock.json"].map(changedAt),
    ...["src", "analyses", "data-samples"].map(newestChange),
  ];
  return changedAt("dist/gramwright.js") < Math.max(...sources);
}

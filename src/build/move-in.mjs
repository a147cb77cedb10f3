// Puts a finished build in the place of the one before, so that a program running meanwhile finds what it needs.
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { dirname } from "node:path";

/** a program started before a build may still load its parts for so long, in milliseconds */
const partsKept = 3_600_000;

/** since when files of earlier builds are no longer part of the newest, by name */
const listName = "left-over.json";

function leftOver(place) {
  const path = `${place}/${listName}`;
  return existsSync(path) ? JSON.parse(readFileSync(path, "utf8")) : {};
}

/** Moves file by file, the entry last. Parts have their contents in their names, so old and new can lie side by side. */
function moveIn(fresh, place, { entry, isAlone, now }) {
  mkdirSync(place, { recursive: true });
  const names = readdirSync(fresh).sort((a, b) => Number(a === entry) - Number(b === entry));
  for (const name of names) renameSync(`${fresh}/${name}`, `${place}/${name}`);
  const before = leftOver(place);
  const after = {};
  for (const name of readdirSync(place)) {
    if (names.includes(name) || name === listName) continue;
    const since = before[name] ?? now;
    if (isAlone || now - since > partsKept) rmSync(`${place}/${name}`, { recursive: true });
    else after[name] = since;
  }
  if (Object.keys(after).length > 0) writeFileSync(`${place}/${listName}`, JSON.stringify(after));
  else rmSync(`${place}/${listName}`, { force: true });
}

/**
 * Has a build made in a folder of its own beside its place, and moved there when it is whole. One that fails leaves the
 * build before as it was, and nothing of itself.
 * @param place the folder of the build
 * @param make writes the build into the folder it is given
 * @param options.entry the file that programs are started by; @param options.isAlone nothing of earlier builds may stay
 * @throws what `make` throws
 */
export async function buildInto(place, make, { entry, isAlone = false, now = Date.now() }) {
  const fresh = mkdtempSync(`${dirname(place)}/.dist-new-`);
  try {
    await make(fresh);
    moveIn(fresh, place, { entry, isAlone, now });
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
}

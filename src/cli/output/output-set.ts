import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, extname, join } from "node:path";
import { fileTrouble, PlainFailure } from "../plain-failure.ts";
import { lockName, withFolderLock } from "./folder-lock.ts";
import { freshName, isFreshName } from "./fresh-name.ts";
import { elsewhereBy, isOurs, type Originals, type Output, outputPlace, type PlannedOutput } from "./output-place.ts";

/** names what is still to be moved in a folder when a run was ended between two of its files */
const listName = ".gramwright-moves.json";

/** A file on its way to its place, both by their names in the folder. */
interface Move {
  from: string;
  to: string;
  kind: Output["kind"];
}

/** Writes a new file, down to the disk. No link is followed, since nothing may be there. @throws EEXIST where something is */
export function writeDown(path: string, text: string): void {
  const file = openSync(path, "wx");
  try {
    writeFileSync(file, text);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Has the names in a folder written down; not every system can. */
function syncFolder(folder: string): void {
  if (process.platform === "win32") return;
  const file = openSync(folder, "r");
  try {
    fsyncSync(file);
  } catch (error) {
    const code = error instanceof Error && "code" in error ? String(error.code) : "";
    if (!["EINVAL", "ENOTSUP", "EPERM"].includes(code)) throw error;
  } finally {
    closeSync(file);
  }
}

/** Whether a move may go on after a run was ended in the middle: only onto nothing, or onto one of ours. */
function mayFinish(folder: string, { from, to, kind }: Move): boolean {
  if (!isFreshName(from) || basename(to) !== to || !existsSync(join(folder, from))) return false;
  const place = join(folder, to);
  if (!existsSync(place)) return true;
  return lstatSync(place).isFile() && isOurs(place, kind);
}

function readMoves(folder: string): Move[] {
  const path = join(folder, listName);
  if (!existsSync(path) || !lstatSync(path).isFile()) return [];
  try {
    return JSON.parse(readFileSync(path, "utf8")) as Move[];
  } catch (error) {
    if (error instanceof SyntaxError) return []; // ended before anything was moved
    throw error;
  }
}

/** Finishes what a run that was ended had begun to move, and takes away what it had not. */
function recover(folder: string): void {
  for (const move of readMoves(folder)) {
    if (mayFinish(folder, move)) renameSync(join(folder, move.from), join(folder, move.to));
  }
  for (const name of readdirSync(folder)) {
    if (isFreshName(name) || name === listName) rmSync(join(folder, name), { recursive: true, force: true });
  }
}

/** Puts a written file in its place. A sheet never takes the place of what appeared there in the meantime. */
function moveIn(folder: string, { from, to, kind }: Move): void {
  const [source, place] = [join(folder, from), join(folder, to)];
  if (kind !== "sheet") {
    renameSync(source, place);
    return;
  }
  try {
    linkSync(source, place);
    rmSync(source);
  } catch (error) {
    const code = error instanceof Error && "code" in error ? String(error.code) : "";
    if (code === "EEXIST") throw error;
    // a file system without links
    if (existsSync(place)) throw new PlainFailure(`${place}: something of that name is already there`);
    renameSync(source, place);
  }
}

/** Moves what is written in a folder to its names there; once it has begun it is finished, by the next run if need be. */
function moveSet(folder: string, moves: ReadonlyArray<Move>): void {
  // one takes its place at once; of several, the list says which are still to come
  if (moves.length > 1) {
    const list = freshName();
    writeDown(join(folder, list), JSON.stringify(moves));
    renameSync(join(folder, list), join(folder, listName));
    syncFolder(folder);
  }
  for (const move of moves) moveIn(folder, move);
  syncFolder(folder);
}

/** Does work in a folder that ends with moves, and leaves nothing but them. */
function withMoves(folder: string, work: (moves: Move[]) => void): void {
  const moves: Move[] = [];
  try {
    work(moves);
    moveSet(folder, moves);
  } finally {
    for (const { from } of moves) rmSync(join(folder, from), { recursive: true, force: true });
    rmSync(join(folder, listName), { force: true });
  }
}

function writeSet(folder: string, set: ReadonlyArray<{ place: string; output: Output }>): void {
  recover(folder);
  // a sheet's place can be taken in the meantime: if it is, nothing else has moved yet
  const inOrder = [...set].sort((a, b) => Number(b.output.kind === "sheet") - Number(a.output.kind === "sheet"));
  withMoves(folder, (moves) => {
    for (const { place, output } of inOrder) {
      const from = freshName();
      moves.push({ from, to: basename(place), kind: output.kind });
      writeDown(join(folder, from), output.text);
    }
  });
}

/** Whether a folder can be made at a path: nothing is there, or an empty folder, or what a run that was ended left. */
export function isFreePlace(place: string): boolean {
  if (!existsSync(place)) return true;
  const names = readdirSync(place);
  return names.includes(listName) || names.every((name) => name === lockName || isFreshName(name));
}

/**
 * Makes a folder of files, all of it or nothing.
 * @param place whole path; not there, or an empty folder. One that somebody stands in stays and is filled
 * @param fill writes the files into the folder it is given
 * @returns false where the folder holds something; then nothing is written
 * @throws what the file system throws
 */
export function makeFolder(place: string, fill: (folder: string) => void): boolean {
  const isThere = existsSync(place);
  const home = isThere ? place : dirname(place);
  mkdirSync(home, { recursive: true });
  return withFolderLock(home, () => {
    recover(home);
    if (!isFreePlace(place)) return false;
    const fresh = join(home, freshName());
    try {
      mkdirSync(fresh);
      fill(fresh);
      if (!isThere) renameSync(fresh, place);
      else {
        withMoves(place, (moves) => {
          for (const to of readdirSync(fresh)) {
            const from = freshName();
            moves.push({ from, to, kind: "sheet" });
            renameSync(join(fresh, to), join(place, from));
          }
        });
      }
      syncFolder(home);
      return true;
    } finally {
      rmSync(fresh, { recursive: true, force: true });
    }
  });
}

/** Whether a file is at a path. A link, a pipe or a folder is none: `outputPlace` says what is wrong with it. */
function isFile(path: string): boolean {
  try {
    return lstatSync(path).isFile();
  } catch {
    return false;
  }
}

/** The set under names that are free: "plan.csv", then "plan-2.csv"; all of a set get the same number. */
function withFreeNames<O extends PlannedOutput>(outputs: ReadonlyArray<O>): O[] {
  const isTaken = (list: ReadonlyArray<O>) => list.some(({ path, kind }) => kind === "sheet" && isFile(path));
  const numbered = (k: number): O[] =>
    outputs.map((output) => {
      const ending = extname(output.path);
      return { ...output, path: `${output.path.slice(0, output.path.length - ending.length)}-${k}${ending}` };
    });
  let [list, k] = [[...outputs], 2];
  while (isTaken(list)) list = numbered(k++);
  return list;
}

/** Outputs with their places. @throws PlainFailure where one may not be written, or two would be one file */
function placed<O extends PlannedOutput>(outputs: ReadonlyArray<O>, originals: Originals | undefined) {
  const set = outputs.map((output) => ({ place: outputPlace(output, originals), output }));
  const twice = set.find(({ place }, index) => set.findIndex((one) => one.place === place) < index);
  if (twice === undefined) return set;
  throw new PlainFailure(`${twice.output.path}: two outputs would go into this file. Give each its own.`);
}

/**
 * Says no before any work is done where an output could not be written.
 * @throws PlainFailure as `writeOutputs` would
 */
export const requirePlaces = (outputs: ReadonlyArray<PlannedOutput>, originals?: Originals): void =>
  void placed(withFreeNames(outputs), originals);

/** Lets Ctrl-C and an end from outside wait until a set is whole. */
function heldSignals(): () => void {
  const signals = (["SIGINT", "SIGTERM", "SIGHUP"] as const).filter((signal) => process.listenerCount(signal) === 0);
  const stop = (signal: NodeJS.Signals): void => {
    release();
    process.kill(process.pid, signal);
  };
  const release = (): void => {
    for (const signal of signals) process.off(signal, stop);
  };
  for (const signal of signals) process.on(signal, stop);
  // a signal that came is heard before this
  return () => void setImmediate(release);
}

/**
 * Writes all outputs of a command as one set: whoever looks finds the old files or the new ones, also after a run was ended
 * in the middle, once the next run has begun. What lies there and is not ours is never written over.
 * @param outputs all in one folder
 * @param originals the book they are made from; none of it is written to
 * @returns where they are: a sheet that a person may fill in gets a fresh name where its own is taken
 * @throws PlainFailure if one cannot be written; then none is
 */
export function writeOutputs(outputs: ReadonlyArray<Output>, originals?: Originals): string[] {
  const named = withFreeNames(outputs);
  const set = placed(named, originals);
  const release = heldSignals();
  const folders = new Map(set.map(({ place }) => [dirname(place), [] as typeof set]));
  for (const one of set) folders.get(dirname(one.place))!.push(one);
  try {
    for (const [folder, own] of folders) {
      mkdirSync(folder, { recursive: true });
      withFolderLock(folder, () => writeSet(folder, own));
    }
  } catch (error) {
    if (error instanceof PlainFailure) throw error;
    throw new PlainFailure(`${named[0]!.path}: ${fileTrouble(error)}. ${elsewhereBy(named[0]!.option)}`);
  } finally {
    release();
  }
  return named.map(({ path }) => path);
}

import { spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import type { FateLine, FaultToTry, FileLine } from "./mutants-runner.ts";

interface Place {
  line: number;
  column: number;
}

/** A small fault: a piece of source and what stands there instead. Lines and columns count from 0. */
interface Fault {
  id: string;
  fileName: string;
  mutatorName: string;
  location: { start: Place; end: Place };
  replacement: string;
  status?: string;
}

interface Instrumenter {
  instrument(
    files: ReadonlyArray<{ name: string; mutate: boolean | Fault["location"][]; content: string }>,
    options: { plugins: null; excludedMutations: string[]; ignorers: [] },
  ): Promise<{ files: { name: string; content: string }[]; mutants: Fault[] }>;
}

/** The rooms that decide what a grower is told, by piece of the bench, and the rooms of tests that are asked about them. */
const pieces: Record<string, { rooms: string[]; tests: string[] }> = {
  cleaning: { rooms: ["src/cleaning"], tests: ["cleaning"] },
  statistics: { rooms: ["src/statistics"], tests: ["statistics", "decisions"] },
  decisions: { rooms: ["src/decisions"], tests: ["decisions"] },
  money: { rooms: ["src/costing", "src/design"], tests: ["costing", "design", "analyses"] },
  comparison: { rooms: ["analyses/comparison"], tests: ["analyses"] },
};
const leastShare = 0.05; // of the sample, for each room
const options = { plugins: null, ignorers: [] as [], excludedMutations: ["StringLiteral"] }; // reports show the words
const instrumenter = "@stryker-mutator/instrumenter@9.6.1";

/** Installs what makes the faults into a folder of its own. */
async function installInstrumenter(folder: string): Promise<Instrumenter> {
  mkdirSync(join(folder, "node_modules"), { recursive: true });
  const asks = createRequire(join(folder, "node_modules", "x.js"));
  if (!existsSync(join(folder, "node_modules", "@stryker-mutator", "instrumenter"))) {
    const how = ["install", "--no-save", "--ignore-scripts", "--no-audit", "--no-fund", "--prefix", folder];
    const { status } = spawnSync("npm", [...how, instrumenter], { stdio: "inherit" });
    if (status !== 0) throw new Error(`npm could not install ${instrumenter}`);
  }
  const { Instrumenter } = (await import(pathToFileURL(asks.resolve("@stryker-mutator/instrumenter")).href)) as {
    Instrumenter: new (log: Record<string, unknown>) => Instrumenter;
  };
  return new Instrumenter({ debug() {}, info() {}, warn() {}, isDebugEnabled: () => false });
}

/** The files under version control, as they stand, with this project's packages. */
function copyProject(to: string): void {
  rmSync(to, { recursive: true, force: true });
  mkdirSync(to, { recursive: true });
  const { stdout } = spawnSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"]);
  for (const file of stdout.toString().split("\0")) if (file && existsSync(file)) cpSync(file, join(to, file));
  symlinkSync(realpathSync("node_modules"), join(to, "node_modules"));
}

/** The source files of a room. */
const filesOf = (room: string): string[] =>
  readdirSync(room, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts"))
    .map(({ parentPath, name }) => join(parentPath, name))
    .sort();

const same = (a: Fault, b: Fault): boolean =>
  a.fileName === b.fileName &&
  a.mutatorName === b.mutatorName &&
  a.replacement === b.replacement &&
  JSON.stringify(a.location) === JSON.stringify(b.location);

/** The faults that can be made in a room, by the line they begin on. */
async function faultsByLine(by: Instrumenter, room: string): Promise<Fault[][]> {
  const lines = new Map<string, Fault[]>();
  for (const name of filesOf(room)) {
    const { mutants } = await by.instrument([{ name, mutate: true, content: readFileSync(name, "utf8") }], options);
    for (const fault of mutants) {
      if (fault.status === "Ignored") continue;
      const line = `${name}:${fault.location.start.line}`;
      lines.set(line, [...(lines.get(line) ?? []), fault]);
    }
  }
  return [...lines.values()];
}

/** Draws a line at random, then one of its faults, until there are so many different ones. */
function drawFaults(lines: ReadonlyArray<ReadonlyArray<Fault>>, count: number, random: SeededRandom): Fault[] {
  const drawn = new Set<Fault>();
  while (drawn.size < count) {
    const line = lines[random.integer(lines.length)]!;
    drawn.add(line[random.integer(line.length)]!);
  }
  return [...drawn];
}

/** Puts switches for the faults into the sources of the copy. @returns the faults with the numbers of their switches */
async function switchIn(by: Instrumenter, copy: string, faults: ReadonlyArray<Fault>): Promise<Fault[]> {
  const names = [...new Set(faults.map(({ fileName }) => fileName))];
  const sources = names.map((name) => ({
    name,
    content: readFileSync(name, "utf8"),
    mutate: faults.filter(({ fileName }) => fileName === name).map(({ location }) => location),
  }));
  const { files, mutants } = await by.instrument(sources, options);
  for (const { name, content } of files) writeFileSync(join(copy, name), content);
  return faults.map((fault) => ({ ...fault, id: mutants.find((one) => same(one, fault))!.id }));
}

/** Runs tests in the copy; gives what they told. */
function runTests<Line>(copy: string, env: Record<string, string>, files: string[] = []): Line[] {
  const log = join(copy, "faults.jsonl");
  writeFileSync(log, "");
  const vitest = join("node_modules", "vitest", "vitest.mjs");
  const config = join("test", "bench", "mutants-vitest.config.ts");
  spawnSync(process.execPath, [vitest, ...files, "--run", "--config", config], {
    cwd: copy,
    env: { ...process.env, ...env, GRAMWRIGHT_FAULT_LOG: log },
    stdio: "ignore",
  });
  const lines = readFileSync(log, "utf8").split("\n").filter(Boolean);
  return lines.map((line) => JSON.parse(line) as Line);
}

/** How many folders and names a source and a file of tests have in common, from their rooms on. */
function nearness(source: string, test: string): number {
  const [a, b] = [source, test].map((file) =>
    file
      .replace(/(\.test)?\.ts$/, "")
      .split("/")
      .slice(1),
  );
  const apart = a!.findIndex((name, at) => name !== b![at]);
  return apart === -1 ? a!.length + 1 : apart + (a!.at(-1) === b!.at(-1) ? 1 : 0);
}

/** The files of tests that come by a fault, the nearest first and of these the quickest. */
function testsOf({ id, fileName }: Fault, told: ReadonlyArray<FileLine>): FaultToTry {
  const onLoading = told.some((file) => file.onLoading.includes(id));
  const meeting = told.flatMap(({ file, loads, tests }) => {
    const own = Object.entries(tests).filter(([, { met }]) => onLoading || Object.hasOwn(met, id));
    if (onLoading ? !loads.includes(fileName) : own.length === 0) return [];
    const seconds = own.reduce((sum, [, one]) => sum + one.seconds, 0);
    const asked = Object.fromEntries(own.map(([test, { met }]) => [test, met[id] ?? 0]));
    return [{ file, asked, order: seconds - 1000 * nearness(fileName, file) }];
  });
  meeting.sort((a, b) => a.order - b.order);
  return { id, fileName, onLoading, files: meeting.map(({ file, asked }) => ({ file, asked })) };
}

/** What became of the faults that tests of these rooms come by: one noticed, none did, or none did in the time given. */
function fatesOf(copy: string, rooms: string[], faults: ReadonlyArray<Fault>): Map<Fault, string> {
  const told = runTests<FileLine>(copy, { GRAMWRIGHT_TEST_ROOMS: rooms.join() });
  const all = faults.map((fault) => testsOf(fault, told)).filter(({ files }) => files.length > 0);
  const fates = new Map<string, string>();
  for (let tries = all; tries.length > 0; tries = all.filter(({ id }) => !fates.has(id))) {
    writeFileSync(join(copy, "faults.json"), JSON.stringify(tries));
    const env = { GRAMWRIGHT_FAULTS: "faults.json", GRAMWRIGHT_TEST_ROOMS: "*" };
    for (const { id, fate } of runTests<FateLine>(copy, env, [tries[0]!.files[0]!.file])) fates.set(id, fate);
    const broke = tries.find(({ id }) => !fates.has(id));
    if (broke !== undefined) fates.set(broke.id, "noticed, it broke off the run");
  }
  return new Map(faults.map((fault) => [fault, fates.get(fault.id) ?? "reached by no test"]));
}

/** The text of a place. */
function textAt({ fileName, location: { start, end } }: Fault): string {
  const lines = readFileSync(fileName, "utf8")
    .split("\n")
    .slice(start.line, end.line + 1);
  lines[lines.length - 1] = lines.at(-1)!.slice(0, end.column);
  lines[0] = lines[0]!.slice(start.column);
  return lines.join("\n").replaceAll("\n", "\n      ");
}

function report(room: string, fates: ReadonlyMap<Fault, string>): void {
  const counts = new Map<string, number>();
  for (const [{ fileName }, fate] of fates)
    if (fileName.startsWith(`${room}/`)) counts.set(fate, (counts.get(fate) ?? 0) + 1);
  console.log(`${room}: ${[...counts].map(([fate, count]) => `${count} ${fate}`).join("; ")}`);
  for (const [fault, fate] of fates) {
    const { fileName, location, mutatorName, replacement } = fault;
    if (!fileName.startsWith(`${room}/`) || fate.startsWith("noticed")) continue;
    console.log(`  ${fileName}:${location.start.line + 1}:${location.start.column + 1} ${mutatorName}, ${fate}`);
    console.log(`    - ${textAt(fault)}\n    + ${replacement}`);
  }
}

/**
 * Makes small faults in the rooms that decide what a grower is told (by StrykerJS, https://stryker-mutator.io, without its
 * own runner: one run of the tests finds which come by which fault, another asks those, the nearest first) and says which no test notices. A test
 * that says what is right is missing there, the code is not needed, or the fault changes nothing.
 * @param count how many are drawn in all rooms; each has its share by lines that can hold one, 5 % at least
 * @throws Error for a piece that there is not
 */
export async function benchMutants(
  wanted: ReadonlyArray<string> = Object.keys(pieces),
  count = Number(process.env.GRAMWRIGHT_MUTANTS ?? 300),
  seed = Number(process.env.GRAMWRIGHT_SEED ?? 11),
): Promise<void> {
  const unknown = wanted.find((name) => !Object.hasOwn(pieces, name));
  if (unknown !== undefined) throw new Error(`there is no piece "${unknown}" but ${Object.keys(pieces).join(", ")}`);
  const folder = join(tmpdir(), "gramwright-mutants");
  const copy = join(folder, wanted.join("-"));
  const by = await installInstrumenter(folder);
  const lines = new Map<string, Fault[][]>();
  for (const room of Object.values(pieces).flatMap(({ rooms }) => rooms)) lines.set(room, await faultsByLine(by, room));
  const all = [...lines.values()].reduce((sum, { length }) => sum + length, 0);
  const random = seededRandom(seed);
  const rooms = wanted.flatMap((name) => pieces[name]!.rooms);
  const drawn = rooms.flatMap((room) => {
    const own = lines.get(room)!;
    return drawFaults(own, Math.ceil(count * Math.max(leastShare, own.length / all)), random);
  });
  copyProject(copy);
  const faults = await switchIn(by, copy, drawn);
  const tests = new Set(wanted.flatMap((name) => pieces[name]!.tests));
  const fates = fatesOf(copy, [...tests], faults);
  for (const room of rooms) report(room, fates);
}

import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("..", import.meta.url));

/** What each room may import besides itself; "*" is anything. Rooms are matched by the longest path. */
const allowed: Record<string, ReadonlyArray<string>> = {
  "src/records": [],
  "src/csv": ["src/records"],
  "src/cleaning": ["src/csv", "src/records"],
  "src/statistics": [],
  "src/measures": [],
  "src/design": ["src/records"],
  "src/decisions": ["src/statistics"],
  "src/planning": ["src/records"],
  "src/costing": ["src/measures", "src/records"],
  "src/sentence.ts": [],
  "src/answer-front.ts": ["src/sentence.ts"],
  "src/chart.ts": ["src/sentence.ts"],
  "src/report-test.ts": ["src/analysis.ts", "src/decisions"],
  "src/analysis.ts": ["src/decisions", "src/answer-front.ts", "src/chart.ts", "src/sentence.ts", "src/records"],
  analyses: [
    "src/measures",
    "src/decisions",
    "src/statistics",
    "src/costing",
    "src/design",
    "src/planning",
    "src/records",
    "src/analysis.ts",
    "src/report-test.ts",
  ],
  "src/report": ["src/records", "src/design", "src/analysis.ts", "src/report-test.ts"],
  "src/engine": [
    "analyses",
    "src/cleaning",
    "src/costing",
    "src/csv",
    "src/decisions",
    "src/records",
    "src/report",
    "src/analysis.ts",
    "src/report-test.ts",
  ],
  "src/live": ["*"],
  "src/page": ["*"],
  "src/cli": ["*"],
  "src/build": ["*"],
};

const files = ["src", "analyses"].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((path) => /\.tsx?$/.test(path))
    .map((path) => `${folder}/${path.replaceAll("\\", "/")}`),
);

const roomOf = (path: string): string | undefined =>
  Object.keys(allowed).find((room) => path === room || path.startsWith(`${room}/`));

/** Every module a file imports, with project files as paths from the root. */
function importsOf(path: string): string[] {
  const text = readFileSync(join(root, path), "utf8");
  const specifiers = [
    ...text.matchAll(/^\s*(?:import|export)\b[^"'`;]*?\bfrom\s*["']([^"']+)["']/gm),
    ...text.matchAll(/^\s*import\s*["']([^"']+)["']/gm),
    ...text.matchAll(/\bimport\(\s*["']([^"']+)["']/g),
  ].map((match) => match[1]!);
  return specifiers.map((specifier) =>
    specifier.startsWith(".") ? relative(root, join(root, dirname(path), specifier)).replaceAll("\\", "/") : specifier,
  );
}

const graph = new Map(files.map((path) => [path, importsOf(path)]));

test("every source file belongs to a room", () => {
  expect(files.length).toBeGreaterThan(50);
  expect(files.filter((path) => roomOf(path) === undefined)).toEqual([]);
});

test("imports follow the arrows", () => {
  const wrong = [...graph].flatMap(([path, imports]) => {
    const room = roomOf(path)!;
    const may = allowed[room]!;
    return imports
      .filter((target) => /^(src|analyses)\//.test(target))
      .filter((target) => {
        const other = roomOf(target);
        return other !== room && !may.includes("*") && !(other !== undefined && may.includes(other));
      })
      .map((target) => `${path} imports ${target}`);
  });
  expect(wrong).toEqual([]);
});

/** Rooms that run on Node itself. */
const onNode: ReadonlyArray<string> = ["src/cli", "src/build", "src/live"];

test("only the command line, the build and what puts live parts into a report import Node modules", () => {
  const wrong = [...graph].flatMap(([path, imports]) =>
    onNode.includes(roomOf(path)!)
      ? []
      : imports.filter((target) => target.startsWith("node:")).map((target) => `${path} imports ${target}`),
  );
  expect(wrong).toEqual([]);
});

/**
 * What rooms share with others, by room: an import from outside may reach nothing else of them. A room with an index.ts
 * shares that alone; a room named in neither way shares all its files.
 */
const shares: Readonly<Record<string, ReadonlyArray<string>>> = {
  "analyses/culture": [],
  "analyses/temperature": ["chamber-runs.ts"],
  "analyses/process": ["flush-money.ts", "flush-shares.ts"],
  "analyses/costs": [
    "book-drying-ratio.ts",
    "book-prices.ts",
    "dose-prices.ts",
    "dose-work.ts",
    "earning-responses.ts",
    "gram-cost.ts",
    "money-doubts.ts",
    "product-name.ts",
    "ratio-over-cooks.ts",
    "supplement-costs.ts",
    "tray-money.ts",
  ],
};

/** The folder that counts as a room of its own: a subject of the analyses, a room of src, or a part of src/decisions. */
function placeOf(path: string): string {
  const [top, first, second] = path.split("/");
  if (top === "src" && first === "decisions" && second !== undefined && !second.includes(".")) {
    return `${top}/${first}/${second}`;
  }
  return first === undefined || first.includes(".") ? top! : `${top}/${first}`;
}

test("an import reaches no further into a room than it means to share", () => {
  const wrong = [...graph].flatMap(([path, imports]) =>
    imports
      .filter((target) => graph.has(target) && placeOf(target) !== placeOf(path))
      .filter((target) => {
        const room = placeOf(target);
        const inRoom = target.slice(room.length + 1);
        const isQuestion = path === "analyses/index.ts";
        if (isQuestion || room === "src" || room === "analyses") return false;
        if (graph.has(`${room}/index.ts`)) return inRoom !== "index.ts";
        return shares[room] !== undefined && !shares[room].includes(inRoom);
      })
      .map((target) => `${path} imports ${target}`),
  );
  expect(wrong).toEqual([]);
});

test("rooms do not import each other in a circle", () => {
  const rooms = new Map<string, Set<string>>();
  for (const [path, imports] of graph) {
    const from = placeOf(path);
    for (const target of imports.filter((each) => graph.has(each))) {
      if (placeOf(target) !== from) rooms.set(from, (rooms.get(from) ?? new Set()).add(placeOf(target)));
    }
  }
  const circles: string[] = [];
  const finished = new Set<string>();
  const walk = (room: string, trail: string[]): void => {
    if (finished.has(room)) return;
    const start = trail.indexOf(room);
    if (start >= 0) circles.push([...trail.slice(start), room].join(" -> "));
    else for (const target of rooms.get(room) ?? []) walk(target, [...trail, room]);
    finished.add(room);
  };
  for (const room of rooms.keys()) walk(room, []);
  expect(circles).toEqual([]);
});

test("every import leads to a file", () => {
  const missing = [...graph].flatMap(([path, imports]) =>
    imports
      .filter((target) => /^(src|analyses)\/.*\.tsx?$/.test(target) && !graph.has(target))
      .map((target) => `${path} imports ${target}`),
  );
  expect(missing).toEqual([]);
});

test("no file imports itself by a round trip", () => {
  const finished = new Set<string>();
  const cycles: string[] = [];
  const walk = (path: string, trail: string[]): void => {
    if (finished.has(path)) return;
    const start = trail.indexOf(path);
    if (start >= 0) {
      cycles.push([...trail.slice(start), path].join(" -> "));
      return;
    }
    for (const target of graph.get(path) ?? []) if (graph.has(target)) walk(target, [...trail, path]);
    finished.add(path);
  };
  for (const path of graph.keys()) walk(path, []);
  expect(cycles).toEqual([]);
});

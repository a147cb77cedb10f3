import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { exportedFunctions, sourceFiles } from "../documented-examples.ts";

const folder = new URL("../../src/statistics/", import.meta.url);
const page = readFileSync(new URL("README.md", folder), "utf8");

/** Every routine the page promises, with its file and parameter names. */
const promised = page.split(/^## /m).flatMap((part) => {
  const area = /: `([a-z-]+)`/.exec(part.split("\n")[0]!)?.[1];
  return [...part.matchAll(/^\| `([a-z0-9-]+\.ts)` \| `(\w+)\((.*?)\)`(?: →| \|)/gm)].map(
    ([, file, name, parameters]) => ({
      file: area === undefined ? file! : `${area}/${file}`,
      name: name!,
      parameters: parameters!,
    }),
  );
});

/** Names before each colon or default at the outermost level of a parameter list; destructured ones are left out. */
function parameterNames(list: string): string[] {
  let depth = 0;
  let outer = "";
  for (const letter of list.replace(/=>/g, "")) {
    if ("{([<".includes(letter)) depth++;
    if (depth === 0) outer += letter;
    if ("})]>".includes(letter)) depth--;
  }
  return outer
    .replace(/=\s*[^,]*/g, "")
    .split(",")
    .map((part) => part.split(":")[0]!.replace("?", "").trim())
    .filter((name) => name !== "");
}

const exported = sourceFiles("src/statistics")
  .flatMap(exportedFunctions)
  .map((one) => ({ ...one, file: one.file.replace("src/statistics/", "") }));

test("the page of statistics promises what the files export, parameter by parameter", () => {
  expect(promised.length).toBeGreaterThan(100);
  for (const { file, name, parameters } of promised) {
    const routine = exported.find((one) => one.file === file && one.name === name);
    expect(parameterNames(parameters), `${file}: ${name}`).toEqual(
      routine?.parameters.filter((parameter) => /^\w/.test(parameter)),
    );
  }
});

test("every routine that statistics exports is on the page, its working parts are not", () => {
  const routines = exported.filter(({ isInternal }) => !isInternal).map(({ file, name }) => `${file}: ${name}`);
  const listed = promised.map(({ file, name }) => `${file}: ${name}`);
  expect(routines.filter((routine) => !listed.includes(routine))).toEqual([]);
  expect(listed.filter((routine) => !routines.includes(routine))).toEqual([]);
  expect(new Set(listed).size).toBe(listed.length);
});

test("every folder of statistics has its part of the page", () => {
  const folders = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory());
  for (const { name } of folders) expect(page).toContain(`: \`${name}\``);
});

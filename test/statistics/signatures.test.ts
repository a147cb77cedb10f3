import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

const folder = new URL("../../src/statistics/", import.meta.url);
const page = readFileSync(new URL("README.md", folder), "utf8");

/** Every routine the page promises, with its area, file and parameter names. */
const promised = page.split(/^## /m).flatMap((part) => {
  const area = /: `([a-z-]+)`/.exec(part)?.[1];
  return [...part.matchAll(/^\| `([a-z0-9-]+\.ts)` \| `(\w+)\((.*?)\)`(?: →| \|)/gm)].map(
    ([, file, name, parameters]) => ({ area: area!, file: file!, name: name!, parameters: parameters! }),
  );
});

/** Names before each colon or default at the outermost level of a parameter list. */
function parameterNames(list: string): string[] {
  let depth = 0;
  let outer = "";
  for (const letter of list) {
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

test("the page of statistics promises what the files export, parameter by parameter", () => {
  expect(promised.length).toBeGreaterThan(150);
  for (const { area, file, name, parameters } of promised) {
    const source = readFileSync(new URL(`${area}/${file}`, folder), "utf8");
    const match = new RegExp(`export function ${name}(?:<[^(]*>)?\\(((?:[^()]|\\([^()]*\\))*)\\)`).exec(source);
    expect(match, `${area}/${file} exports ${name}`).not.toBeNull();
    const actual = parameterNames(match![1]!.replace(/\/\/.*$/gm, "").replace(/\s+/g, " "));
    expect(parameterNames(parameters), `${area}/${file}: ${name}`).toEqual(actual);
  }
});

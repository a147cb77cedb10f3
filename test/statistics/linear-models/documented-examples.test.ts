import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

// Every @example in the doc comments of these folders is run and must give what the comment says.

const folders = ["linear-models", "groups", "comparisons", "resampling"];

interface Example {
  routine: string;
  /** lines before the last */
  setUp: string;
  expression: string;
  expected: string;
  /** routine whose set-up is shared */
  borrowed: string | undefined;
}

function examplesOf(text: string): Example[] {
  return [...text.matchAll(/@example([\s\S]*?)\*\/\s*(?:export )?function (\w+)/g)].map(([, body, routine]) => {
    const lines = body!
      .split("\n")
      .map((line) => line.replace(/^\s*\*? ?/, ""))
      .filter((line) => line.trim() !== "");
    const statements = lines.join("\n");
    const cut = statements.lastIndexOf(" // ");
    const comment = statements.slice(cut + 4).trim();
    const [expected, borrowed] = comment.split(/, with the \w+ of /);
    const code = statements.slice(0, cut);
    const start = code.lastIndexOf(";\n") + 1;
    return {
      routine: routine!,
      setUp: code.slice(0, start),
      expression: code.slice(start),
      expected: expected!,
      borrowed,
    };
  });
}

const known: Record<string, unknown> = {};
const examples: Example[] = [];
let documented = 0;
for (const folder of folders) {
  const place = new URL(`../../../src/statistics/${folder}/`, import.meta.url);
  for (const file of readdirSync(place).filter((name) => name.endsWith(".ts"))) {
    const text = readFileSync(new URL(file, place), "utf8");
    Object.assign(known, await import(new URL(file, place).href));
    documented += text.split("@example").length - 1;
    examples.push(...examplesOf(text));
  }
}

function agrees(value: unknown, expected: string): boolean {
  const share = /^(\d+)(?: of |\/)(\d+)$/.exec(expected);
  if (share !== null) return Math.abs(Number(value) - Number(share[1]) / Number(share[2])) < 1e-12;
  if (expected.endsWith("...")) {
    // the digits shown are those of the value, cut off
    const shown = expected.slice(0, -3);
    const unit = 10 ** -(shown.split(".")[1]?.length ?? 0);
    return Number(value) >= Number(shown) && Number(value) < Number(shown) + unit;
  }
  if (typeof value === "number") return Math.abs(value - Number(expected)) <= 1e-12 * Math.abs(Number(expected));
  return JSON.stringify(value) === JSON.stringify(JSON.parse(expected));
}

test("every documented example was found", () => {
  expect(examples.length).toBe(documented);
  expect(examples.length).toBeGreaterThan(45);
});

test.each(examples)("$routine: $expression", ({ setUp, expression, expected, borrowed }) => {
  const shared = borrowed === undefined ? "" : examples.find(({ routine }) => routine === borrowed)!.setUp;
  const run = new Function(...Object.keys(known), `${shared}\n${setUp}\nreturn (${expression});`);
  const value: unknown = run(...Object.values(known));
  expect(agrees(value, expected), `${JSON.stringify(value)} against ${expected}`).toBe(true);
});

import ts from "typescript";
import { describe, expect, test } from "vitest";
import {
  addressOf,
  type DocumentedExample,
  exportedFunctions,
  exportedNames,
  importedNames,
  moduleOf,
  sourceFiles,
} from "./documented-examples.ts";
import { exampleScope } from "./example-scope.ts";

// Every example in the comment of an exported function is run and must give what the comment says:
//   @example expression // value
// Statements may stand before the expression on lines of their own; ", with the set-up of NAME" borrows those of another
// routine. A number is the value itself, or its digits cut off by "..."; "2 of 6" is a share; an object may end in "...".
// Names that no module exports are those of example-scope.ts. Spaces that do not break are written as spaces.

const files = ["src", "analyses"].flatMap(sourceFiles);
const names = exportedNames(files);
const functions = files.flatMap(exportedFunctions);
const examples = functions.flatMap((one) => one.examples);

const AsyncFunction = (async () => {}).constructor as FunctionConstructor;

/** Runs code with the names it uses looked up in its own module, its folder, its room, then the shared scope. */
async function run({ file, setUp, expression }: DocumentedExample, borrowed: string): Promise<unknown> {
  const code = ts.transpile(`${borrowed}\n${setUp}\nreturn (${expression});`, { target: ts.ScriptTarget.ES2022 });
  const scope: Record<string, unknown> = {};
  for (const name of new Set(code.match(/[A-Za-z_$][\w$]*/g))) {
    const module = moduleOf(names, file, name);
    if (Object.hasOwn(exampleScope, name)) scope[name] = exampleScope[name]!();
    else if (module !== undefined) scope[name] = (await import(addressOf(module)))[name];
  }
  return new AsyncFunction(...Object.keys(scope), code)(...Object.values(scope));
}

/** What the comment says comes out, compared with what does. */
function expectGiven(value: unknown, written: string): void {
  const share = /^(\d+) of (\d+)$/.exec(written);
  const cutOff = /^(-?\d+\.?\d*)(?:e(-?\d+))?\.\.\.$/.exec(written);
  if (share) expectClose(value, Number(share[1]) / Number(share[2]), "value");
  else if (cutOff) {
    // the digits shown are those of the value, cut off
    const unit = 10 ** (Number(cutOff[2] ?? 0) - (cutOff[1]!.split(".")[1]?.length ?? 0));
    const shown = Number(cutOff[1]) * 10 ** Number(cutOff[2] ?? 0);
    expect(value).toBeTypeOf("number");
    const beyond = Math.sign(shown || 1) * ((value as number) - shown);
    expect(beyond >= -1e-9 * unit && beyond < unit * (1 + 1e-9), `${value} begins with ${written}`).toBe(true);
  } else {
    const isPart = /,? ?\.\.\. ?\}$/.test(written);
    const literal = written
      .replace(/,? ?\.\.\. ?\}$/, " }")
      .split(" = ")
      .at(-1)!;
    expectClose(value, new Function(`return (${literal});`)(), "value", isPart);
  }
}

/** Equal to 13 digits, place by place. */
function expectClose(value: unknown, expected: unknown, place: string, isPart = false): void {
  if (typeof expected === "number" && Number.isFinite(expected)) {
    expect(value, place).toBeTypeOf("number");
    const miss = Math.abs((value as number) - expected);
    expect(miss <= 1e-13 * Math.max(Math.abs(expected), 1e-3), `${place}: ${value} is ${expected}`).toBe(true);
  } else if (Array.isArray(expected) && (Array.isArray(value) || ArrayBuffer.isView(value))) {
    const entries = Array.from(value as ArrayLike<unknown>);
    expect(entries.length, place).toBe(expected.length);
    expected.forEach((one, i) => {
      expectClose(entries[i], one, `${place}[${i}]`);
    });
  } else if (typeof expected === "object" && expected !== null && typeof value === "object" && value !== null) {
    const keys = Object.keys(expected);
    if (!isPart) expect(Object.keys(value).sort(), place).toEqual(keys.sort());
    for (const key of keys) {
      expectClose(
        (value as Record<string, unknown>)[key],
        (expected as Record<string, unknown>)[key],
        `${place}.${key}`,
      );
    }
  } else if (typeof value === "string") expect(value.replace(/[\u00a0\u202f]/g, " "), place).toBe(expected);
  else expect(value, place).toEqual(expected);
}

test("examples are found", () => {
  expect(examples.length).toBeGreaterThan(200);
});

test("every exported function of statistics and measures shows an example, or is a working part of one that does", () => {
  const without = functions
    .filter(({ file, isInternal }) => /^src\/(statistics|measures)\//.test(file) && !isInternal)
    .filter((one) => one.examples.length === 0)
    .map(({ file, name }) => `${file}: ${name}`);
  expect(without).toEqual([]);
});

test("a working part of a statistic is used within statistics only", () => {
  const parts = functions.filter(({ isInternal }) => isInternal).map(({ file, name }) => `${file}: ${name}`);
  expect(parts.filter((part) => !part.startsWith("src/statistics/"))).toEqual([]);
  const wrong = files
    .filter((file) => !file.startsWith("src/statistics/"))
    .flatMap((file) =>
      importedNames(file)
        .filter((name) => parts.includes(name))
        .map((name) => `${file} uses ${name}`),
    );
  expect(wrong).toEqual([]);
});

describe("examples in comments give what they say", () => {
  for (const example of examples) {
    test(`${example.file} ${example.routine}: ${example.expression.slice(0, 120)}`, async () => {
      const { expected, borrowed } = example;
      expect(expected, "the example says what comes out").toBeDefined();
      const lender = examples.find(({ routine, setUp }) => routine === borrowed && setUp !== "");
      if (borrowed !== undefined) expect(lender, `${borrowed} has a set-up to lend`).toBeDefined();
      expectGiven(await run(example, lender?.setUp ?? ""), expected!);
    });
  }
});

import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";

/** Examples in doc comments read `expression // value`; "..." after a number means that more digits follow. */
const example = /@example (.+?) \/\/ (.+)$/gm;
const statistics = new URL("../../../src/statistics/", import.meta.url);

function expectValue(actual: unknown, written: string): void {
  const value = written.split(" = ").at(-1)!.split(", ").at(-1)!.trim();
  const open = /^(-?[\d.]+(?:e-?\d+)?)\.\.\.$/.exec(value);
  if (open !== null) {
    const decimals = open[1]!.split(".")[1]!.length;
    expect(actual).toBeTypeOf("number");
    expect(Math.abs((actual as number) - Number(open[1]))).toBeLessThanOrEqual(10 ** -decimals);
    return;
  }
  const expected: unknown = new Function(`return (${written.split(" = ").at(-1)!});`)();
  if (typeof expected === "number") {
    expect(actual).toBeTypeOf("number");
    expect(Math.abs((actual as number) - expected)).toBeLessThanOrEqual(1e-13 * Math.max(1e-9, Math.abs(expected)));
  } else expect(actual).toEqual(expected);
}

for (const area of ["distributions", "descriptive", "counts", "planning", "control"]) {
  describe(`examples in the comments of ${area}`, async () => {
    const files = readdirSync(new URL(`${area}/`, statistics)).filter((name) => name.endsWith(".ts"));
    const scope: Record<string, unknown> = {};
    for (const name of files) Object.assign(scope, await import(new URL(`${area}/${name}`, statistics).href));
    for (const name of files) {
      const text = readFileSync(new URL(`${area}/${name}`, statistics), "utf8");
      for (const [, expression, value] of text.matchAll(example)) {
        test(`${expression}`, () => {
          const run = new Function(...Object.keys(scope), `return ${expression};`);
          expectValue(run(...Object.values(scope)), value!);
        });
      }
    }
  });
}

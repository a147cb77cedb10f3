import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { power } from "../../src/statistics/power.ts";
import { expectAgreement } from "../agreement.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));

describe("powers", () => {
  test("whole exponents are exact where the result is a whole number below 2^53", () => {
    expect([power(3, 0), power(3, 1), power(3, 33), power(-2, 5), power(7, 18), power(0, 0), power(0, 3)]).toEqual([
      1,
      3,
      Number(3n ** 33n),
      -32,
      Number(7n ** 18n),
      1,
      0,
    ]);
    expect([power(2, -3), power(-2, 3.5), power(0, 0.5)]).toEqual([0.125, Number.NaN, 0]);
  });

  test("other exponents, large ones, and the square root", () => {
    expectAgreement(
      {
        method: "power",
        dataset: "roots",
        statistic: "square roots",
        source: "IEEE 754 square root, correctly rounded",
      },
      [2, 3, 0.7, 1e-9, 12345.678].map((base) => [power(base, 0.5), Math.sqrt(base)] as const),
      14,
    );
    expectAgreement(
      { method: "power", dataset: "whole", statistic: "large exponents", source: "whole-number arithmetic" },
      [
        [power(3, 100), Number(3n ** 100n)],
        [power(-3, 101), Number(-(3n ** 101n))],
      ],
      12,
    );
  });

  test("no other power than a square or a whole power of ten or two is taken by the language's own operator", () => {
    const files = ["src", "analyses"].flatMap((folder) =>
      readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
        .filter((name) => /\.tsx?$/.test(name))
        .map((name) => `${folder}/${name}`),
    );
    const bare = files.flatMap((file) =>
      readFileSync(join(root, file), "utf8")
        .split("\n")
        .filter((line) => !/^\s*(?:\*|\/\*\*|\/\/)/.test(line))
        .filter((line) =>
          /Math\.pow|[^*/]\*\*(?!\*)/.test(line.replace(/\*\* 2\b|\b(?:10|2|1024) \*\* \w|\/\*\*.*?\*\//g, "")),
        )
        .map((line) => `${file}: ${line.trim()}`),
    );
    expect(bare).toEqual([]);
  });
});

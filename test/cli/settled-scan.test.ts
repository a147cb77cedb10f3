import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { firstScan, lookAgain, type ScanState, type SeenFile } from "../../src/cli/watching/settled-scan.ts";
import { whyNoSheet } from "../../src/cli/why-no-sheet.ts";

const settle = 500;
const file = (path: string, size: number, changedAt = 1): SeenFile => ({ path, size, changedAt });

/** Looks one after the other; gives the advice of each. */
function look(looks: ReadonlyArray<readonly [now: number, files: SeenFile[]]>): string[] {
  let state: ScanState = firstScan;
  return looks.map(([now, files]) => {
    const { advice, state: next } = lookAgain(state, files, now, settle);
    state = next;
    return advice;
  });
}

test("builds once the sheets have stayed as they are, and then not again", () => {
  const files = [file("a.csv", 10)];
  expect(
    look([
      [0, files],
      [300, files],
      [600, files],
      [900, files],
      [5000, files],
    ]),
  ).toEqual(["wait", "wait", "build", "nothing", "nothing"]);
});

test("a file that still grows is waited for", () => {
  expect(
    look([
      [0, [file("a.csv", 10)]],
      [400, [file("a.csv", 20)]],
      [800, [file("a.csv", 30)]],
      [1200, [file("a.csv", 30)]],
      [1400, [file("a.csv", 30)]],
    ]),
  ).toEqual(["wait", "wait", "wait", "wait", "build"]);
});

test("a file taken away and put back unchanged in size and time while saving builds nothing", () => {
  const files = [file("a.csv", 10)];
  expect(
    look([
      [0, files],
      [600, files],
      [700, []],
      [800, files],
      [2000, files],
    ]),
  ).toEqual(["wait", "build", "wait", "nothing", "nothing"]);
});

test("a deleted, a renamed and a rewritten file each build again", () => {
  const pairs: [SeenFile[], SeenFile[]][] = [
    [[file("a.csv", 1), file("b.csv", 2)], [file("a.csv", 1)]],
    [[file("a.csv", 1)], [file("c.csv", 1)]],
    [[file("a.csv", 1, 1)], [file("a.csv", 1, 2)]],
  ];
  for (const [before, after] of pairs) {
    const advice = look([
      [0, before],
      [600, before],
      [700, after],
      [1300, after],
    ]);
    expect(advice).toEqual(["wait", "build", "wait", "build"]);
  }
});

test("whatever happens: never builds what is not settled, nor the same sheets twice in a row", () => {
  const looks = fc.array(fc.tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 0, max: 3 })), { maxLength: 40 });
  fc.assert(
    fc.property(looks, (steps) => {
      let state: ScanState = firstScan;
      let now = 0;
      let lastSize = -1;
      let sameSince = 0;
      let lastBuilt: number | undefined;
      for (const [pause, size] of steps) {
        now += pause;
        if (size !== lastSize) sameSince = now;
        lastSize = size;
        const { advice, state: next } = lookAgain(state, [file("a.csv", size)], now, settle);
        state = next;
        if (advice === "build") {
          expect(now - sameSince).toBeGreaterThanOrEqual(settle);
          expect(size).not.toBe(lastBuilt);
          lastBuilt = size;
        }
      }
    }),
  );
});

describe("what is no sheet", () => {
  test.each([
    ["~$spring.xlsx", true],
    [".~lock.spring.ods#", true],
    [".DS_Store", true],
    ["spring.csv.part", true],
    ["report.html", true],
    ["book-answers.json", true],
    ["spring.csv", false],
    ["spring.xlsx", false],
    ["spring", false],
  ])("%s: %s", (name, expected) => expect(whyNoSheet(name) !== undefined).toBe(expected));
});

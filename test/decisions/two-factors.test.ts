import { describe, expect, test } from "vitest";
import { type ComparedTray, decideComparison, decideTwoFactors } from "../../src/decisions/verdict/index.ts";
import { reasons, side, trays, whole } from "./verdict-sheets.ts";

describe("two things varied", () => {
  const crossed = (cooks: number): ComparedTray[] =>
    trays(Array.from({ length: cooks }, () => [3, 3, 9, 9, 3, 3, 9, 9])).map((tray, i) => ({
      ...tray,
      other: i % 2 === 0 ? "bran" : "none",
      value: (tray.value as number) + (i % 2 === 0 ? 4 : 0),
    })) as ComparedTray[];

  test("both inside cooks: each without the other, and whether they depend on one another", () => {
    const { first, second, interaction } = decideTwoFactors(crossed(4) as never);
    expect(first.verdict).toBe("settled");
    expect(first.difference!.estimate).toBeGreaterThan(5);
    expect(first.difference!.estimate).toBeLessThan(7);
    expect(second.difference).toMatchObject({ from: "bran", to: "none" });
    expect(second.difference!.estimate).toBeLessThan(-3);
    expect(interaction!.cooks).toBe(4);
    expect(interaction!.p).toBeGreaterThan(0.05);
    expect(interaction!.differenceOfDifferences!.interval.lower).toBeLessThan(0);
  });

  test("tied in every cook: neither can be told", () => {
    const tied = trays(side(4)).map((tray) => ({ ...tray, other: tray.level === 3 ? "bran" : "none" }));
    const { first, second } = decideTwoFactors(tied.filter(({ level }) => level !== 6));
    expect(reasons(first)).toEqual(["tied-to-the-other-factor"]);
    expect(reasons(second)).toEqual(["tied-to-the-other-factor"]);
  });

  test("the other thing constant in each cook changes nothing", () => {
    const book = trays(side(4));
    const { first } = decideTwoFactors(book.map((tray) => ({ ...tray, other: tray.cook === "C1" ? "A" : "B" })));
    expect(first).toEqual(decideComparison(book));
  });

  test("both given to whole cooks: the other is taken out, or the two are one", () => {
    const book = trays(whole(9, 3, 3, 9, 3, 9, 9, 3));
    const apart = decideTwoFactors(
      book.map((tray) => ({ ...tray, other: "C1C2C7C8".includes(tray.cook!) ? "A" : "B" })),
    );
    expect(apart.first.method).toBe("whole-cooks");
    expect(apart.first.difference!.degreesOfFreedom).toBe(5);
    const one = decideTwoFactors(book.map((tray) => ({ ...tray, other: `recipe ${tray.level}` })));
    expect(reasons(one.first)).toEqual(["tied-to-the-other-factor"]);
  });

  test("one cook: the other is taken out of the line", () => {
    const { first, second } = decideTwoFactors(crossed(1) as never);
    expect(first.method).toBe("one-cook");
    expect(first.difference!.degreesOfFreedom).toBe(4 + 8 - 3);
    expect(second.difference!.estimate).toBeLessThan(-2);
  });
});

test("the second thing does not vary: said as such", () => {
  const book = trays(side(3)).map((tray) => ({ ...tray, other: "bran" }));
  const { first, second, interaction } = decideTwoFactors(book);
  expect(second.caps[0]?.reason).toBe("one-level");
  expect(first.method).toBe("inside-cooks");
  expect(interaction).toBeUndefined();
});

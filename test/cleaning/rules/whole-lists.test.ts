import { expect, test } from "vitest";
import { parseQuantity } from "../../../src/cleaning/values/parse-quantity.ts";
import { plainConventions } from "../../../src/cleaning/values/quantity-reading.ts";
import { readCase, readingText, rulesOfCase } from "../reading-text.ts";

// Every entry of the rules' lists. Words and fractions: English; signs: Unicode's vulgar fractions (U+00BC to U+215E).
test("numbers as words", () => {
  const words =
    "zero 0, nil 0, none 0, half 0.5, one 1, two 2, three 3, four 4, five 5, six 6, seven 7, eight 8, nine 9, ten 10, eleven 11, twelve 12, first 1, second 2, third 3, fourth 4";
  for (const [word, number] of words.split(", ").map((entry) => entry.split(" ")))
    expect([word, readingText(readCase([`${word} g`, "mass", ""]))]).toEqual([word, number]);
});

test("signs of fractions", () => {
  const signs =
    "½ 1/2, ⅓ 1/3, ⅔ 2/3, ¼ 1/4, ¾ 3/4, ⅕ 1/5, ⅖ 2/5, ⅗ 3/5, ⅘ 4/5, ⅙ 1/6, ⅚ 5/6, ⅛ 1/8, ⅜ 3/8, ⅝ 5/8, ⅞ 7/8";
  for (const entry of signs.split(", ")) {
    const [sign, top, bottom] = entry.split(/[ /]/);
    expect([sign, readingText(readCase([`1${sign}`, "number", ""]))]).toEqual([
      sign,
      String(1 + Number(top) / Number(bottom)),
    ]);
  }
});

test("parts that scales and spoons come in, and those that none comes in", () => {
  const isRead = (bottom: number): boolean => rulesOfCase([`1/${bottom} lb`, "mass", ""]).includes("fraction");
  const parts = Array.from({ length: 70 }, (_, at) => at + 1).filter(isRead);
  expect(parts).toEqual([2, 3, 4, 5, 6, 8, 10, 16, 32, 64]);
  expect(readingText(readCase(["4/4 lb", "mass", ""]))).toBe("unreadable");
  expect(readingText(readCase(["5/4 lb", "mass", ""]))).toBe("unreadable");
});

test("counts of trays as words", () => {
  const words = ["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
  expect(words.map((word) => readingText(readCase([`${word} Trays 90 g`, "mass", ""])))).toEqual(
    words.map((_, at) => `${at + 2} trays 90`),
  );
});

test("signs and codes of currencies", () => {
  const marks = "$ US$ NZ$ C$ A$ R$ € £ ¥ ₹ ₽ ₺ ₩ ₴ ₪ zł zl Kč Kc kr kr. lei leu лв лв.".split(" ");
  const codes = "EUR USD GBP CHF AUD CAD NZD SEK NOK DKK PLN CZK HUF RON BGN BRL MXN JPY INR ISK UAH TRY".split(" ");
  for (const mark of [...marks, ...codes]) {
    for (const cell of [`${mark} 4.50`, `4.50 ${mark}`, `4.50${marks.includes(mark) ? mark : ` ${mark}`}`])
      expect([cell, readingText(readCase([cell, "number", ""]))]).toEqual([cell, "4.5"]);
  }
  expect(readingText(readCase(["EURO 4.50", "number", ""]))).toBe("unreadable");
});

test("messages of spreadsheets", () => {
  const messages =
    "#REF! #DIV/0! #VALUE! #NAME? #NUM! #NULL! #N/A #SPILL! #CALC! #GETTING_DATA #FIELD! #BUSY! #CONNECT! #UNKNOWN! #REF #### Err:502 err:502";
  for (const cell of messages.split(" "))
    expect([cell, rulesOfCase([cell, "mass", ""])]).toEqual([cell, ["spreadsheet-error"]]);
  for (const cell of ["#REFS!", "x#REF!", "#REF! x", "#", "Err:5", "Err:5021", "xErr:502"])
    expect([cell, rulesOfCase([cell, "mass", ""])]).not.toEqual([cell, ["spreadsheet-error"]]);
});

test("characters that are plain ones in another dress", () => {
  const reads = (cell: string): string => readingText(readCase([cell, "mass", ""]));
  for (const space of ["\u00a0", "\u2000", "\u2009", "\u200a", "\u202f", "\u205f", "\u3000"]) {
    expect(reads(`310${space}g`)).toBe("310");
    expect(rulesOfCase([`310${space}g`, "mass", ""])[0]).toBe("unusual-characters");
  }
  for (const nothing of ["\u200b", "\u200c", "\u200d", "\u200f", "\u2060", "\ufeff", "\u00ad"])
    expect(reads(`3${nothing}10 g`)).toBe("310");
  for (const minus of ["\u2212", "\ufe63", "\uff0d", "\u2010", "\u2011"]) expect(reads(`${minus}5`)).toBe("-5");
  for (const mark of ["\u2018", "\u2019", "\u02bc", "\u00b4", "`"]) expect(reads(`1${mark}234 g`)).toBe("1234");
  for (const mark of ["\u201c", "\u201d", "\u2033"]) expect(reads(`${mark}310${mark}`)).toBe("310");
  expect(reads("\uff10\uff19\uff0e\uff15")).toBe("9.5");
  expect(reads("1 1\u20442 lb")).toBe("680.388555");
});

test("ways of a cell to hold nothing", () => {
  const how = (cell: string): string => readingText(readCase([cell, "mass", ""]));
  for (const dash of ["-", "--", "---", "–", "—", ".", "..", "...", "…", "/", "_", "*"])
    expect(how(dash)).toBe("missing: dash");
  for (const mark of ["?", "??", "???"]) expect(how(mark)).toBe("missing: unknown");
  expect(how(" N/A ")).toBe("missing: not applicable");
  const reasons = ["", "-", "n/a", "?", "not weighed"].map((cell) => readCase([cell, "mass", ""]).changes[0]!.reason);
  expect(new Set(reasons).size).toBe(5);
  expect(reasons.slice(0, 3).every((reason) => reason.includes("not 0"))).toBe(true);
});

test("what a number that can be read two ways asks for", () => {
  const asked = (cell: string) => {
    const reading = parseQuantity(cell, "mass", { ...plainConventions, bareUnit: "g" });
    return reading.kind === "ambiguous"
      ? [reading.setting, reading.expected, reading.candidates.map(({ as }) => as)]
      : [];
  };
  expect(asked("1,234")).toEqual([
    "decimal_mark",
    "a number without the comma, or with another count of decimals",
    ["with decimals", "in thousands"],
  ]);
  expect(asked("1.234")[1]).toBe("a number without the point, or with another count of decimals");
});

test.each([
  ["1 lb and 3 oz", "538.640939375"],
  ["1 lb and 1 ounce", "481.941893125"],
  ["1 pound & 1 oz", "481.941893125"],
  ["1 kg and 1 gram", "1001"],
  ["1.5 kg + 20 g", "1520"],
  ["200 g + 50", "250"],
  ["200 g + 1 oz", "228.349523125"],
  ["1/2 lb + 1/4 lb", "340.1942775"],
  ["≈ 200 + 50 g", "about 250"],
  ["200 - - ok", "unreadable"],
  ["200 -- ok", "200"],
  ["200, don't know", "200"],
  ["200 g !", "200"],
  ["200 **", "200"],
  ["200 g per the bag", "unreadable"],
  ["200 g a tray", "200"],
])("%j weighs %s", (cell, says) => {
  expect(readingText(readCase([cell, "mass", ""]))).toBe(says);
});

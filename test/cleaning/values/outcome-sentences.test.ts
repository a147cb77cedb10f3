import { describe, expect, test } from "vitest";
import { isOutcome, readOutcome } from "../../../src/cleaning/values/outcome-words.ts";

/** All that is read from a text: "contaminated, sure, partly" (partly: other words stand beside). */
function allSaid(text: string): string {
  const found = readOutcome(text);
  if (found === undefined) return "nothing";
  const { says, queried, contradictory, whole, thrownOut, picked, sure, misspelt } = found;
  return [
    says,
    ...(sure ? ["sure"] : []),
    ...(whole ? [] : ["partly"]),
    ...(queried ? ["queried"] : []),
    ...(contradictory ? ["against itself"] : []),
    ...(thrownOut ? ["thrown out"] : []),
    ...(picked ? ["picked"] : []),
    ...(misspelt ? ["misspelt"] : []),
  ].join(", ");
}

describe("how far a negation reaches", () => {
  test.each([
    // not over a stop, a dash, a bracket, a new line or a comma
    ["no bag mold", "not lost"],
    ...[
      "no bag - mold",
      "no bag -- mold",
      "no bag \u2013 mold",
      "no bag\u2014 mold",
      "no bag. mold",
      "no bag... mold",
    ].map(contaminated),
    ...[
      "no bag; mold",
      "no bag;mold",
      "no bag! mold",
      "no bag (mold)",
      "no bag(mold)",
      "no bag [mold]",
      "no bag\nmold",
    ].map(contaminated),
    ...["no bag, mold", "no bag,mold", "no bag but mold", "no bag, but mold"].map(contaminated),
    ["no bag-mold", "not lost"],
    // nor over the marks inside a number
    ["no 2,5 mold", "not lost"],
    ["no 2.5 mold", "not lost"],
    ["no bag on day 12, mold", "contaminated, sure"],
    // over a list that an "or" ends
    ["no mold, bacteria or flies", "not lost"],
    ["no mold, bacteria, rot or flies", "not lost"],
    ["no mold, bacteria, rot", "contaminated"],
    ["no rot or flies, green corner", "contaminated"],
    ["tray 3, mold or bacteria", "contaminated, sure"],
    ["no mold. bacteria or rot", "contaminated"],
    ["no mold or bacteria", "not lost"],
    ["no mold and bacteria", "not lost"],
    ["no mold bacteria", "contaminated"],
    // five words far
    ["no sign at all of any mold", "not lost, partly"],
    ["no sign at all of any tray block side edge corner mold", "contaminated, sure, partly"],
    // to a word that ends it
    ["not only contaminated", "contaminated, sure"],
    ["not mold but bacteria", "contaminated"],
    ["no mold, just slow", "not lost, partly"],
    // a word for nothing before a loss
    ["niente", "failed"],
    ["niente muffa", "not lost"],
    ["niente muffa, batteri", "contaminated"],
  ])("%j: %s", (text, said) => {
    expect(allSaid(text)).toBe(said);
  });
});

function contaminated(text: string): [string, string] {
  return [text, "contaminated, sure"];
}

describe("negations behind what they deny", () => {
  test.each([
    ["mold: none", "not lost"],
    ["mold none seen", "not lost"],
    ["mold none seen yet", "not lost"],
    ["mold none seen on 2", "contaminated, sure, partly"],
    ["mold not seen", "not lost"],
    ["mold not seen yet", "not lost"],
    ["mold not seen so far", "not lost"],
    ["mold not", "contaminated, sure"],
    ["mold not on the edge", "contaminated, sure"],
    ["mold not seen on the edge", "contaminated, sure, partly"],
    ["contam - no", "not lost"],
    ["contam, no", "not lost"],
    ["contam. No", "not lost"],
    ["contam - no mold", "contaminated, sure"],
    ["no", "nothing"],
    ["contaminatd: none", "not lost, misspelt"],
    // in one word, wherever it stands
    ["mold-free", "not lost"],
    ["mold-free so far", "not lost, partly"],
    ["rot-free", "not lost"],
    ["moldfree", "not lost"],
    ["schimmel-freie Kiste", "not lost, partly"],
    ["schimmel-freies Substrat", "not lost, partly"],
    ["schimmel-vrij blok", "not lost, partly"],
    ["schimmel-vrije bak", "not lost, partly"],
  ])("%j: %s", (text, said) => {
    expect(allSaid(text)).toBe(said);
  });
});

describe("what else a text says", () => {
  test.each([
    // doubts
    ["mold?", "contaminated, sure, queried"],
    ["maybe mold", "contaminated, sure, queried"],
    ["mold on one corner, still going", "contaminated, sure, queried"],
    ["mold, still growing", "contaminated, sure, queried"],
    ["mold but growing", "contaminated, sure, queried"],
    ["mold growing", "contaminated, sure"],
    ["mold but fine", "contaminated, sure, against itself"],
    ["clean, still growing", "growing"],
    ["still growing", "growing"],
    // good and lost
    ["picked, mold", "contaminated, sure, against itself, picked"],
    ["picked, failed", "failed, sure, against itself, picked"],
    ["picked, then binned", "spent, sure, thrown out, picked"],
    ["binned", "discarded, sure, thrown out"],
    ["mold, binned", "contaminated, sure, thrown out"],
    ["growing, mold", "contaminated, sure"],
    // picked, or only good
    ["picked", "good, picked"],
    ["sold", "good, picked"],
    ["clean", "good"],
    ["not picked", "nothing"],
    ["not good", "failed, sure"],
    ["no mold, not picked", "nothing"],
    ["not spent", "not lost"],
    // good up to a day is good no longer
    ["clean until day 20", "nothing"],
    ["clean until day 20, mold", "contaminated, sure"],
    ["mold until cut away", "contaminated, sure, partly"],
    // words that mean other things in prose
    ["green", "contaminated"],
    ["green mold", "contaminated, sure"],
    ["broken", "discarded, thrown out"],
    // other words beside, days and numbers
    ["mold on shelf", "contaminated, sure, partly"],
    ["mold on 3", "contaminated, sure"],
    ["d12 mold", "contaminated, sure"],
    ["mold wk3", "contaminated, sure"],
    ["day 12 mold", "contaminated, sure"],
    ["mold week14", "contaminated, sure"],
    ["mold x12", "contaminated, sure, partly"],
    ["mold d12x", "contaminated, sure, partly"],
    // misspelt, where the word is long enough; asked where it may be another one
    ["contaminatd", "contaminated, sure, misspelt"],
    ["contamintaed", "contaminated, sure, misspelt"],
    ["discared", "discarded, queried, thrown out, misspelt"],
    ["discrad", "discarded, queried, thrown out, misspelt"],
    ["gren", "nothing"],
    ["binne", "nothing"],
    // nothing
    ["", "nothing"],
    [" - ", "nothing"],
    ["12", "nothing"],
  ])("%j: %s", (text, said) => {
    expect(allSaid(text)).toBe(said);
  });

  test("a long remark is prose, whatever its words", () => {
    expect(allSaid(`mold ${"and on ".repeat(29)}`)).toBe("contaminated, sure");
    expect(allSaid(`mold ${"and on ".repeat(40)}`)).toBe("nothing");
  });

  test("what an outcome is called", () => {
    const outcomes = ["contaminated", "failed", "discarded", "growing", "good", "asked"];
    expect([...outcomes, "spent", "Good", ""].filter(isOutcome)).toEqual(outcomes);
  });
});

import { expect, test } from "vitest";
import { readOutcome } from "../../../src/cleaning/values/outcome-words.ts";

const cases: [text: string, says: string | undefined][] = [
  // losses, as they stand in notes and outcome columns
  ["contam - tossed", "contaminated"],
  ["green mold", "contaminated"],
  ["trich", "contaminated"],
  ["binned", "discarded"],
  ["bacterial", "contaminated"],
  ["verschimmelt, weggeworfen", "contaminated"],
  ["Grünschimmel", "contaminated"],
  ["moisissure verte", "contaminated"],
  ["hongo verde", "contaminated"],
  ["ammuffito", "contaminated"],
  ["beschimmeld", "contaminated"],
  ["zielona pleśń", "contaminated"],
  ["mofo verde", "contaminated"],
  ["nichts gewachsen", "failed"],
  ["pas de croissance", "failed"],
  ["no creció", "failed"],
  ["non cresciuto", "failed"],
  ["niet aangeslagen", "failed"],
  ["nie urosło", "failed"],
  ["não pegou", "failed"],
  ["no growth, green", "contaminated"],
  // a loss denied, before or behind its word, in one word, as far as the negation reaches
  ["no sign of mold", "not lost"],
  ["mold free", "not lost"],
  ["mold-free", "not lost"],
  ["contam free", "not lost"],
  ["contam: none", "not lost"],
  ["not contaminated - just slow", "not lost"],
  ["mold not seen", "not lost"],
  ["no mold, bacteria or flies", "not lost"],
  ["didn't get contaminated", "not lost"],
  ["nicht kontaminiert", "not lost"],
  ["kein Schimmel", "not lost"],
  ["schimmelfrei", "not lost"],
  ["Kontamination nicht sichtbar", "not lost"],
  ["sans moisissure", "not lost"],
  ["n'est pas contaminé", "not lost"],
  ["aucune contamination", "not lost"],
  ["sin moho", "not lost"],
  ["libre de moho", "not lost"],
  ["no contaminado, solo lento", "not lost"],
  ["senza muffa", "not lost"],
  ["nessuna contaminazione", "not lost"],
  ["geen schimmel", "not lost"],
  ["niet besmet", "not lost"],
  ["nie skażone", "not lost"],
  ["bez pleśni", "not lost"],
  ["brak kontaminacji", "not lost"],
  ["sem mofo", "not lost"],
  ["não contaminado", "not lost"],
  // and where it does not reach
  ["no mold but stalled", "failed"],
  ["no mold, green corner", "contaminated"],
  ["not only contaminated", "contaminated"],
  ["kein Schimmel, aber nichts gewachsen", "failed"],
  ["pas de moisissure mais rien poussé", "failed"],
  ["sin moho pero no creció", "failed"],
  ["bez pleśni, ale nie urosło", "failed"],
  ["sem mofo mas não cresceu", "failed"],
  ["geen schimmel maar mislukt", "failed"],
  ["senza muffa ma non cresciuto", "failed"],
  // good, growing, drying
  ["geerntet", "good"],
  ["récolté", "good"],
  ["cosechado", "good"],
  ["raccolto", "good"],
  ["geoogst", "good"],
  ["zebrany", "good"],
  ["colhido", "good"],
  ["wächst noch", "growing"],
  ["en cours", "growing"],
  ["trocknet noch", "drying"],
  ["not dry yet", "drying"],
  ["pending", "pending"],
  ["pendiente", "pending"],
  ["picked, then binned", "spent"],
  ["abgetragen", "spent"],
  // nothing known
  ["flibber", undefined],
  ["meh", undefined],
  ["not growing", undefined],
  ["moved to shelf 2", undefined],
];

test.each(cases)("%j says %s", (text, says) => {
  expect(readOutcome(text)?.says).toBe(says);
});

test("good and lost in one text is no answer, and a doubt is reported", () => {
  expect(readOutcome("picked, slight green on the corner")).toMatchObject({ contradictory: true });
  expect(readOutcome("mold?")).toMatchObject({ says: "contaminated", queried: true });
  expect(readOutcome("vielleicht kontaminiert")).toMatchObject({ says: "contaminated", queried: true });
});

test("a word that means other things in prose is not sure by itself", () => {
  expect(readOutcome("smell of green tea in the tent")).toMatchObject({ sure: false, whole: false });
  expect(readOutcome("tossed it after two weeks in the tent")).toMatchObject({ sure: true, whole: false });
});

// the words lists of Debian's wbritish, wngerman, wfrench, witalian, wdutch and wportuguese hold them all
test.each([
  "checked",
  "injected 6 ml",
  "inspected",
  "container",
  "contained",
  "patched",
  "Material",
  "gehaald",
  "anything",
  "composed",
  "geïnjecteerd",
  "injection",
  "nourriture",
  "batteria",
  "brotado",
])("“%s” is an everyday word and no misspelt loss", (text) => {
  expect(readOutcome(text)).toBeUndefined();
});

test("a misspelt loss is one where it is long and a letter off, and in doubt where it may be another word", () => {
  expect(readOutcome("contaminted")).toMatchObject({ says: "contaminated", perhaps: false, sure: true });
  expect(readOutcome("thrashed")).toMatchObject({ says: "discarded", perhaps: true, queried: true, sure: false });
  expect(readOutcome("mouldey, thrown")).toMatchObject({ says: "contaminated", perhaps: false, queried: false });
});

import type { CostBase } from "../../records/cost-line.ts";
import { unitNamed } from "../../records/words/units.ts";
import { readWord } from "../side-sheets/read-word.ts";
import { costBase } from "./cost-words.ts";
import type { CostRow } from "./read-measured.ts";

/** What the words of a base leave out: how many canonical uses one typed use is. */
const scaledBase =
  /^(?:per\s+|each\s+|every\s+)?(\p{L}+)\s+(?:of\s+)?(fresh|dried|dry|grain|supplement|inoculum|culture|liquid culture|lc)$/iu;

/** "lb fresh" is a use per kg fresh, 0.45359237 of one: the base and how much of it the typed one is. */
export function readBase(row: CostRow): { per: CostBase; share: number } | undefined {
  const text = row.text("per");
  if (costBase.find(text)?.misspelt !== false) {
    const [, unit = "", what = ""] = scaledBase.exec(text) ?? [];
    const mass = unitNamed(unit, "mass");
    const volume = unitNamed(unit, "volume");
    const word = what.toLowerCase();
    const weighed = {
      fresh: "kg fresh",
      dried: "kg dried",
      dry: "kg dried",
      grain: "grain g",
      supplement: "supplement g",
    } as const;
    if (mass !== undefined && Object.hasOwn(weighed, word)) {
      const per = weighed[word as keyof typeof weighed];
      return { per, share: per.startsWith("kg") ? mass.factor / 1000 : mass.factor };
    }
    if (volume !== undefined && volume.sizedBy === undefined && /inoculum|culture|lc/.test(word)) {
      return { per: "inoculum mL", share: volume.factor };
    }
  }
  const per = readWord(row, "per", costBase);
  return per === undefined ? undefined : { per, share: 1 };
}

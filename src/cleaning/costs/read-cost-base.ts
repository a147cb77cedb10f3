import type { CostBase } from "../../records/cost-line.ts";
import { unitNamed } from "../../records/words/units.ts";
import { readWord } from "../side-sheets/read-word.ts";
import { costBase } from "./cost-words.ts";
import type { CostRow } from "./read-measured.ts";

const measured = {
  fresh: "kg fresh",
  dried: "kg dried",
  dry: "kg dried",
  grain: "grain g",
  supplement: "supplement g",
  inoculum: "inoculum mL",
  culture: "inoculum mL",
  "liquid culture": "inoculum mL",
  lc: "inoculum mL",
} as const satisfies Record<string, CostBase>;

const inUnits = new RegExp(
  `^(?:(?:per|each|every)\\s+)?(\\p{L}+)\\s+(?:of\\s+)?(${Object.keys(measured).join("|")})$`,
  "iu",
);

const several = /^(?:(?:per|each|every|for)\s+)?(\d{1,5})\s+(\p{L}.*)$/iu;

/** "Load of 6" and "load (6 trays)" are a load. */
export const withoutSize = (text: string): string =>
  text.replace(/(?<=\p{L}) (?:of \d{1,3}(?: (?:trays|bags|blocks))?|\(\d{1,3} (?:trays|bags|blocks)\))$/iu, "");

/** The base that words name, and how many of it: "tray", "9 trays", "tray / bag"; undefined where none is named outright. */
export function baseNamed(text: string): { per: CostBase; share: number } | undefined {
  const one = withoutSize(text);
  const [, count = "1", counted = one] = several.exec(one) ?? [];
  const named = new Set(
    counted.split(/\s*\/\s*|\s+or\s+/).map((part) => {
      const found = costBase.find(part);
      return found?.misspelt === false ? found.answer : undefined;
    }),
  );
  const [per] = named;
  return per === undefined || named.size > 1 || Number(count) === 0 ? undefined : { per, share: Number(count) };
}

/**
 * What one use goes to. "lb fresh" is a use per kg fresh, 0.45359237 of one, and "9 trays" are nine uses: the base and how
 * much of it the typed one is.
 */
export function readBase(row: CostRow): { per: CostBase; share: number } | undefined {
  const named = baseNamed(row.text("per"));
  if (named !== undefined) return named;
  const typed = inUnits.exec(row.text("per"));
  if (typed !== null) {
    const per = measured[typed[2]!.toLowerCase() as keyof typeof measured];
    const unit = unitNamed(typed[1]!, per === "inoculum mL" ? "volume" : "mass");
    if (unit !== undefined && unit.sizedBy === undefined)
      return { per, share: per.startsWith("kg") ? unit.factor / 1000 : unit.factor };
  }
  if (!row.has("per")) {
    const expected = `one of: ${costBase.answers.join(", ")}`;
    const reason = "what this money goes to is not said";
    return row.say("per", { rule: "missing", reason, expected, action: `Use ${expected}` });
  }
  const per = readWord(row, "per", costBase);
  return per === undefined ? undefined : { per, share: 1 };
}

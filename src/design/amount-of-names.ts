import type { Tray } from "../records/tray.ts";
import { perWords } from "../records/words/per-words.ts";
import { saysNone } from "../records/words/says-none.ts";
import { unitOfAnyKind } from "../records/words/units.ts";
import type { Factor } from "./factor.ts";

const number = /^([+-]?\d+(?:\.\d+|,\d{1,2})?)(.*)/s;

/** So much for each unit of another: "g/kg", "mL per L", "x a day". */
const forEach = new RegExp(`^(.*?)\\s*(?:/|(?<!\\p{L})(?:${perWords}|a)\\s)\\s*(\\p{L}+)$`, "iu");

/** Times that something is done; what is counted has no unit. */
const times = /^(?:|x|×|times)$/i;

/** A unit as it is shown; undefined for text that is none. A single capital, as of a recipe "1A", is a name's. */
function unitOf(text: string): string | undefined {
  const isName = /^[A-KM-Z]$/.test(text);
  if (isName) return undefined;
  const match = forEach.exec(text);
  if (match === null) return unitOfAnyKind(text, "mass")?.name;
  const [, amount, each] = match as unknown as [string, string, string];
  const own = times.test(amount) ? "x" : unitOfAnyKind(amount, "mass")?.name;
  return own === undefined || unitOfAnyKind(each, "mass") === undefined ? undefined : `${own}/${each.toLowerCase()}`;
}

/** Behind these a unit is that of a rate: "Air changes / h", "Mist per h". */
const rate = new RegExp(`(?:/|(?<!\\p{L})(?:${perWords}))$`, "iu");

/** The unit at a header's end, "Bran (%)" or "Bran g", and the header without it. */
function headed(label: string): { name: string; unit: string } {
  const match = /^(.*?\S)\s*(?:[([]([^()[\]]+)[)\]]|(%)|\s([a-zA-Z]{1,2}))$/.exec(label);
  const unit = unitOf((match?.[2] ?? match?.[3] ?? match?.[4] ?? "").trim());
  return unit === undefined || rate.test(match![1]!) ? { name: label, unit: "" } : { name: match![1]!, unit };
}

/** A level as a number with its unit; a word for none is 0 of any. */
function read(text: string): { value: number; unit: string } | undefined {
  if (saysNone(text)) return { value: 0, unit: "" };
  const match = number.exec(text);
  if (match === null) return undefined;
  const typed = match[2]!.trim();
  const unit = typed === "" ? "" : unitOf(typed);
  return unit === undefined ? undefined : { value: Number(match[1]!.replace(",", ".")), unit };
}

/**
 * A column of names as an amount, where every cell is a number and all have one unit, in the cells or in the header:
 * "none", "5 %", "10%". A number without a unit among others with one is no amount, unless it is 0.
 * @returns the factor as it was where its cells are names
 */
export function asAmount(factor: Factor, trays: ReadonlyArray<Tray>): Factor {
  const values = new Map<string, number>();
  const { name, unit: ofHeader } = headed(factor.label);
  const units = new Set<string>();
  let isBare = false;
  let hasNumber = false;
  for (const tray of trays) {
    const text = factor.level(tray);
    if (text === undefined || values.has(text)) continue;
    const found = read(text);
    if (found === undefined) return factor;
    values.set(text, found.value);
    hasNumber ||= number.test(text);
    if (found.unit !== "") units.add(found.unit);
    else if (found.value !== 0) isBare = true;
  }
  const mixes = units.size > 1 || (ofHeader === "" ? isBare && units.size > 0 : units.size > 0 && !units.has(ofHeader));
  if (!hasNumber || mixes) return factor;
  const value = (tray: Tray): number | undefined => values.get(factor.level(tray) ?? "");
  return {
    key: factor.key,
    label: name,
    unit: ofHeader || ([...units][0] ?? ""),
    level: (tray) => value(tray)?.toString(),
    value,
  };
}

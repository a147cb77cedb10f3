import type { Level } from "../../src/decisions/verdict/index.ts";
import type { Factor } from "../../src/design/factor.ts";

/** The level that the settings call usual: "9" or "9 mL" of an amount, a name as it is. */
export function typedUsual(
  typed: string,
  { kind, factor }: { kind: "amount" | "names"; factor: Factor },
): Level | undefined {
  const text = typed.trim();
  if (text === "" || kind === "names") return text === "" ? undefined : text;
  const bare = factor.unit !== "" && text.endsWith(factor.unit) ? text.slice(0, -factor.unit.length).trim() : text;
  const value = Number(bare.replace(",", "."));
  return Number.isFinite(value) ? value : undefined;
}

/**
 * The usual one of several levels: the one the grower names, else the one most trays had; where several had as many, the
 * first of them, which is called so.
 * @param levels in the order they are shown in, each with its started trays
 * @throws RangeError if there is no level
 */
export function usualOf<One extends { level: Level; started: number }>(
  levels: ReadonlyArray<One>,
  typed: Level | undefined,
): { one: One; by: "named" | "most used" | "first" } {
  const [first] = levels;
  if (first === undefined) throw new RangeError("usualOf: there must be a level, received none");
  const named = levels.find(({ level }) => level === typed);
  if (named !== undefined) return { one: named, by: "named" };
  const most = levels.reduce((best, one) => (one.started > best.started ? one : best), first);
  const isTied = levels.some((one) => one !== most && one.started === most.started);
  return { one: most, by: isTied ? "first" : "most used" };
}

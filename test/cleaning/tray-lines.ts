import type { Book } from "../../src/records/book.ts";
import type { Tray } from "../../src/records/tray.ts";

/**
 * A sheet as a grower types it, or several by path, and what a careful person reads from it, one part for each tray: name,
 * dose in mL, fresh and dry weight in g ("-" where none is to be used) and outcome; then trays in the pool (x), days of
 * inoculation (i) and harvest (h), batch (b). "/" parts readings that are both right, asking among them; "?" takes any,
 * "lost" any loss. Common practice, no source.
 */
export type Typed = [name: string, sheets: string | Record<string, string>, trays: string];

const shown = (value: string | number | undefined): string =>
  typeof value === "number" ? String(Number(value.toFixed(1))) : (value ?? "-");

const losses = ["contaminated", "failed", "discarded"];

/** Whether a tray is what a line of truth says. */
function isAsSaid(tray: Tray, line: string): boolean {
  const [, name, dose, fresh, dry, outcome, more] = /^(.*?) (\S+) (\S+) (\S+) (\S+)((?: [xihb]\S+)*)$/.exec(line)!;
  const fits = (said: string, value: string | number | undefined): boolean =>
    said
      .split("/")
      .some((one) => one === "?" || one === shown(value) || (one === "lost" && losses.includes(`${value}`)));
  const { inoculatedOn: i = "NONE", harvestedOn: h = "NONE", batch: b = "NONE" } = tray;
  const facts: Record<string, string | number> = { x: tray.traysInPool, i, h, b };
  return (
    (name === "?" || name === tray.trayId) &&
    fits(dose!, tray.inoculumMillilitres) &&
    fits(fresh!, tray.freshGrams) &&
    fits(dry!, tray.dryGrams) &&
    fits(outcome!, tray.outcome) &&
    [...more!.matchAll(/ ([xihb])(\S+)/g)].every(([, key, said]) => said!.split("/").includes(String(facts[key!])))
  );
}

/** Lines of the truth that no tray bears out, and trays that no line speaks of; both empty where all was read right. */
export function misread({ trays }: Book, truth: string): { missing: string[]; left: string[] } {
  const left = [...trays];
  const missing = truth.split("|").filter((line) => {
    const at = left.findIndex((tray) => isAsSaid(tray, line));
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  const tell = ({ trayId, inoculumMillilitres, freshGrams, dryGrams, outcome }: Tray): string =>
    [trayId, ...[inoculumMillilitres, freshGrams, dryGrams, outcome].map(shown)].join(" ");
  return { missing, left: left.map(tell) };
}

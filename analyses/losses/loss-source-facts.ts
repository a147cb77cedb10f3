import type { Sentence, Table } from "../../src/analysis.ts";
import { type LossSources, outstandingGroups } from "./loss-sources.ts";

/** Every pattern that was looked for, with the group that stands out furthest. */
export function lossPatternTable(sources: LossSources): Table {
  return {
    caption: "Where losses sit together: what was looked for",
    columns: [
      { label: "Tied to" },
      { label: "groups", unit: "groups" },
      { label: "trays", unit: "trays" },
      { label: "most in" },
      { label: "lost there", unit: "trays" },
      { label: "trays there", unit: "trays" },
      { label: "expected there", unit: "trays", digits: 2 },
      { label: "p", unit: "p" },
      { label: "p, allowing for all", unit: "p" },
    ],
    rows: sources.patterns.map(({ name, grouping, clustering, p, adjustedP }) => {
      const [top] = clustering?.groups ?? [];
      return [
        `${name}${grouping?.within === undefined ? "" : `, within ${grouping.within.name}`}${grouping?.blocks === undefined ? "" : `, by whole ${grouping.blocks.name}s`}`,
        grouping?.groups ?? null,
        grouping?.recorded ?? null,
        top?.level ?? null,
        top?.events ?? null,
        top?.rows ?? null,
        top?.expected ?? null,
        p,
        adjustedP,
      ];
    }),
    // patterns that no more than chance is shown of are a list of what was looked at
    ...(sources.tiedTo.length === 0 ? { open: 0 } : {}),
    note: "p: how often losses shuffled over the trays at random, or with whole cooks, loads or jars where it says so, would sit together as much. The last column allows for how many things were looked for.",
  };
}

/** The groups of every grouping that losses are tied to. */
export function lossGroupTables({ tiedTo }: LossSources): Table[] {
  return tiedTo.map(({ name, clustering }) => ({
    caption: `Losses by ${name}`,
    columns: [
      { label: name },
      { label: "lost", unit: "trays" },
      { label: "finished", unit: "trays" },
      { label: "share lost", unit: "share" },
      { label: "expected lost", unit: "trays", digits: 2 },
      { label: "p, allowing for all groups", unit: "p" },
    ],
    rows: clustering.groups
      .slice(0, 30)
      .map(({ level, events, rows, expected, p }) => [level, events, rows, events / rows, expected, p]),
    ...(clustering.groups.length > 30
      ? { note: `The 30 with most losses for their size, of ${clustering.groups.length}.` }
      : {}),
  }));
}

/** "culture jar (5 of 6 trays from J7)" */
function tieParts(pattern: LossSources["tiedTo"][number], alpha: number): string {
  const groups = outstandingGroups(pattern.clustering, alpha);
  const shown = groups.slice(0, 3).map(({ level, events, rows }) => `${events} of ${rows} trays from ${level}`);
  const more = groups.length > 3 ? ` and ${groups.length - 3} more` : "";
  return `${pattern.name} (${shown.join(", ")}${more})`;
}

/** What the losses are tied to, as the second half of a sentence. */
export function lossSignalParts(sources: LossSources, alpha: number): Sentence {
  const { tiedTo, inseparable, standing } = sources;
  if (tiedTo.length === 0) return [`a signal, not scatter: ${standing.map(({ name }) => `a ${name}`).join(" and ")}.`];
  const ties = tiedTo.map((pattern) => tieParts(pattern, alpha));
  const same = tiedTo.some(({ grouping }) => grouping.keys.length > 1);
  return [
    `a signal, not scatter, tied to ${ties.join(inseparable ? " or " : " and to ")}${
      inseparable
        ? ", which these trays cannot tell apart"
        : same
          ? "; these always changed together, so which of them it is cannot be said"
          : ""
    }.`,
  ];
}

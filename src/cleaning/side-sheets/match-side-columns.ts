import { sheetIssue } from "../../csv/sheet-issue.ts";
import type { Issue } from "../../records/issue.ts";
import type { RawTable } from "../../records/sheet.ts";
import { closestWord } from "../../records/words/closest-word.ts";

/** One column a side sheet may have. */
export interface SideColumn<K extends string> {
  /** the canonical header */
  key: K;
  /** other names for it, lower case, separated by | */
  names: string;
}

/** Where a column was found. */
export interface MatchedColumn {
  index: number;
  /** as typed */
  header: string;
  /** what stands in brackets or after a comma in the header: "g", "€"; "" when nothing does */
  unit: string;
}

/** A name without case, accents, underscores and points. */
export const plainName = (text: string): string =>
  text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/%/g, " pct ")
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();

const unitInHeader = /[([{]\s*([^()[\]{}]{1,20}?)\s*[)\]}]|,\s*([^\s,]{1,8})\s*$|\s([€$£¥°]\p{L}?)\s*$/u;

/**
 * Finds the columns of a side sheet by their names: the canonical one, then other names, then either misspelt.
 * A unit or currency in the header is set apart. Two columns with an equal claim are both left, with an error.
 */
export function matchColumns<K extends string>(
  table: RawTable,
  columns: ReadonlyArray<SideColumn<K>>,
): { found: Map<K, MatchedColumn>; issues: Issue[] } {
  const byName = new Map<string, { key: K; rank: number }>();
  for (const { key, names } of columns) {
    for (const name of names.split("|")) {
      const plain = plainName(name);
      if (plain !== "" && !byName.has(plain)) byName.set(plain, { key, rank: 1 });
    }
  }
  for (const { key } of columns) byName.set(plainName(key), { key, rank: 0 });
  const allNames = [...byName.keys()];
  const claims = new Map<K, { rank: number; column: MatchedColumn }[]>();
  const issues: Issue[] = [];
  const about = { file: table.file, row: table.headerRow };

  table.header.forEach((header, index) => {
    if (header === "") return;
    const bracket = unitInHeader.exec(header);
    const unit = (bracket?.[1] ?? bracket?.[2] ?? bracket?.[3] ?? "").trim();
    const whole = plainName(header);
    const bare = bracket === null ? whole : plainName(header.replace(bracket[0], " "));
    let match = byName.get(whole) ?? byName.get(bare);
    if (match === undefined) {
      const near = closestWord(bare, allNames, (name) => byName.get(name)!.key);
      if (near !== undefined) {
        const { key } = byName.get(near)!;
        match = { key, rank: 2 };
        issues.push(
          sheetIssue({
            ...about,
            column: header,
            raw: header,
            result: key,
            rule: "column-spelling",
            severity: "change",
            reason: "the header is near enough to the name of a column",
          }),
        );
      }
    }
    if (match === undefined) {
      issues.push(
        sheetIssue({
          ...about,
          column: header,
          raw: header,
          rule: "unread-column",
          severity: "note",
          reason: "the column is none that this sheet has; it was not read",
          action: `Rename it if it was meant as one of: ${columns.map(({ key }) => key).join(", ")}`,
        }),
      );
      return;
    }
    const list = claims.get(match.key) ?? [];
    list.push({ rank: match.rank, column: { index, header, unit } });
    claims.set(match.key, list);
  });

  const found = new Map<K, MatchedColumn>();
  for (const [key, list] of claims) {
    list.sort((a, b) => a.rank - b.rank || a.column.index - b.column.index);
    const [first, second] = list;
    if (second !== undefined && second.rank === first!.rank) {
      issues.push(
        sheetIssue({
          ...about,
          column: first!.column.header,
          raw: list.map(({ column }) => column.header).join(" | "),
          rule: "two-columns-for-one",
          severity: "error",
          reason: `more than one column could be ${key}; none of them was read`,
          expected: `one column named ${key}`,
          action: `Name the right one ${key}, and the other one differently`,
        }),
      );
    } else found.set(key, first!.column);
  }
  return { found, issues };
}

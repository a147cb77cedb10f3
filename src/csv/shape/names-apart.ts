import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import { flushInHeader } from "../../records/words/flush-words.ts";
import { wordsOf } from "../../records/words/header-words.ts";

const dayWords = new Set(["date", "day", "when", "on", "picked", "harvested"]);
const isDay = (name: string): boolean => name !== "" && wordsOf(name).every((word) => dayWords.has(word));

/** "1st flush g, date, 2nd flush g, date": days that each stand behind a flush of their own, and the flush of each. */
function flushOfDays(names: ReadonlyArray<string>): ReadonlyMap<number, number> {
  const days = [...names.keys()].filter((at) => isDay(names[at]!));
  const flushes = days.map((at) =>
    names
      .slice(0, at)
      .flatMap((name) => flushInHeader(name)?.flush ?? [])
      .at(-1),
  );
  const isApart = days.length > 1 && new Set(flushes).size === days.length;
  return new Map(
    isApart ? days.flatMap((at, index) => (flushes[index] === undefined ? [] : [[at, flushes[index]]])) : [],
  );
}

/** Names of columns, the second and later ones of a name numbered; one entry of the log for each. */
export function namesApart(
  file: string,
  names: ReadonlyArray<string>,
  headerRow: number,
): { names: string[]; issues: Issue[] } {
  const taken = new Set<string>(names.map((name) => name.toLowerCase()));
  const seen = new Set<string>();
  const issues: Issue[] = [];
  const flushOf = flushOfDays(names);
  const apart = names.map((name, at) => {
    const flush = flushOf.get(at);
    if (flush !== undefined) {
      const reason = "a day behind the weight of a flush is the day of that flush";
      const result = `flush ${flush} date`;
      const about = { file, row: headerRow, column: name, raw: name, result };
      issues.push(logEntry({ ...about, rule: "day-of-flush", severity: "change", reason }));
      return result;
    }
    const key = name.toLowerCase();
    if (name === "" || !seen.has(key)) {
      seen.add(key);
      return name;
    }
    let number = 2;
    while (taken.has(`${key} (${number})`)) number++;
    const renamed = `${name} (${number})`;
    taken.add(renamed.toLowerCase());
    issues.push(
      logEntry({
        file,
        row: headerRow,
        column: name,
        raw: name,
        result: renamed,
        rule: "column-used-twice",
        severity: "warning",
        reason: "two columns have the same name; both are kept, the later one under a numbered name",
        expected: "a name of its own for every column",
        action: "Rename one of the columns, or remove the one that is not needed",
      }),
    );
    return renamed;
  });
  return { names: apart, issues };
}

import { counted } from "../records/counted.ts";
import { type Fact, type Facts, mostTrays, type RunSnapshot, type SnapshotAnswer } from "./run-snapshot.ts";
import { runsOfNames } from "./runs-of-names.ts";

export { parseSnapshot, type RunSnapshot, snapshotOf, snapshotText } from "./run-snapshot.ts";

/** One thing that is not as it was in the sheets. */
export interface SheetChange {
  where: "trays" | "costs" | "products" | "settings";
  /** "new trays C9-001 to C9-012", "filter bag: pack price 46 → 52" */
  text: string;
}

/** An answer that is not what it was. */
export interface AnswerMove {
  question: string;
  headline: boolean;
  kind: "new" | "gone" | "certainty" | "numbers" | "words";
  before: { certainty: string; text: string } | undefined;
  after: { certainty: string; text: string } | undefined;
  /** estimates that moved, matched by label and unit */
  estimates: { label: string; unit: string; before: number; after: number }[];
  /** changes in the sheets that this answer draws on */
  because: SheetChange[];
}

/** What differs between two runs. */
export interface RunComparison {
  changes: SheetChange[];
  moves: AnswerMove[];
}

const propertyWords = (name: string): string =>
  name.startsWith("“") ? name : name.replaceAll("_", " ").replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

const written = (fact: Fact | undefined): string => {
  if (fact === undefined || fact === "") return "nothing";
  if (typeof fact === "number") return String(Number(fact.toPrecision(10)));
  return typeof fact === "boolean" ? (fact ? "yes" : "no") : fact.length > 60 ? `${fact.slice(0, 60)}…` : fact;
};

/** Facts that differ, each as "dry grams 19.6 → 20.1". */
function factChanges(before: Facts, after: Facts): string[] {
  // as most records are
  if (
    before.length === after.length &&
    before.every(([name, fact], at) => name === after[at]![0] && fact === after[at]![1])
  )
    return [];
  const [old, now] = [new Map(before), new Map(after)];
  return [...new Set([...old.keys(), ...now.keys()])]
    .filter((name) => old.get(name) !== now.get(name))
    .map((name) => `${propertyWords(name)} ${written(old.get(name))} → ${written(now.get(name))}`);
}

const mostTraysNamed = 8;

function trayChanges(before: RunSnapshot, after: RunSnapshot): SheetChange[] {
  const change = (text: string): SheetChange => ({ where: "trays", text });
  if (before.trays === undefined || after.trays === undefined) {
    const count =
      before.trayCount === after.trayCount
        ? `${after.trayCount} trays`
        : `trays ${before.trayCount} → ${after.trayCount}`;
    return [change(`${count}; over ${mostTrays} are not compared one by one`)];
  }
  const [old, now] = [new Map(before.trays), new Map(after.trays)];
  const added = [...now.keys()].filter((id) => !old.has(id));
  const gone = [...old.keys()].filter((id) => !now.has(id));
  const different = [...now].flatMap(([id, facts]) => {
    const was = old.get(id);
    const differences = was === undefined ? [] : factChanges(was, facts);
    return differences.length === 0 ? [] : [{ id, differences }];
  });
  const plural = (ids: ReadonlyArray<unknown>) => (ids.length === 1 ? "tray" : "trays");
  return [
    ...(added.length === 0 ? [] : [change(`new ${plural(added)} ${runsOfNames(added)}`)]),
    ...(gone.length === 0 ? [] : [change(`${plural(gone)} no longer there: ${runsOfNames(gone)}`)]),
    ...different.slice(0, mostTraysNamed).map(({ id, differences }) => change(`tray ${id}: ${differences.join("; ")}`)),
    ...(different.length > mostTraysNamed
      ? [
          change(
            `${different.length - mostTraysNamed} more trays changed: ${runsOfNames(different.slice(mostTraysNamed).map(({ id }) => id))}`,
          ),
        ]
      : []),
  ];
}

function recordChanges(
  where: "costs" | "products",
  what: string,
  before: ReadonlyArray<readonly [string, Facts]>,
  after: ReadonlyArray<readonly [string, Facts]>,
): SheetChange[] {
  const [old, now] = [new Map(before), new Map(after)];
  const lines = [...new Set([...old.keys(), ...now.keys()])].map((name) => {
    const [was, is] = [old.get(name), now.get(name)];
    if (was === undefined) return `new ${what} ${name}`;
    if (is === undefined) return `${what} ${name} no longer there`;
    const differences = factChanges(was, is);
    return differences.length === 0 ? "" : `${name}: ${differences.join("; ")}`;
  });
  return lines.filter((text) => text !== "").map((text) => ({ where, text }));
}

const sameNumber = (a: number, b: number): boolean =>
  a === b || Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));

function movedEstimates(before: SnapshotAnswer, after: SnapshotAnswer): AnswerMove["estimates"] {
  const keyOf = ({ label, unit }: { label: string; unit: string }) => JSON.stringify([label, unit]);
  const old = new Map(before.estimates.map((estimate) => [keyOf(estimate), estimate.value]));
  return after.estimates.flatMap((estimate) => {
    const was = old.get(keyOf(estimate));
    const { label, unit, value } = estimate;
    return was === undefined || sameNumber(was, value) ? [] : [{ label, unit, before: was, after: value }];
  });
}

/** What an answer can draw on: money only where it is about money. */
const drawsOn = (answer: SnapshotAnswer, { where }: SheetChange): boolean =>
  answer.topic === "money" || where === "trays" || where === "settings";

function moveOf(
  before: SnapshotAnswer | undefined,
  after: SnapshotAnswer | undefined,
  changes: ReadonlyArray<SheetChange>,
): AnswerMove | undefined {
  const answer = (after ?? before)!;
  const { question, headline } = answer;
  const estimates = before === undefined || after === undefined ? [] : movedEstimates(before, after);
  const kind =
    before === undefined
      ? "new"
      : after === undefined
        ? "gone"
        : before.certainty !== after.certainty
          ? "certainty"
          : estimates.length > 0
            ? "numbers"
            : before.text !== after.text
              ? "words"
              : undefined;
  if (kind === undefined) return undefined;
  const short = (from: SnapshotAnswer | undefined) => from && { certainty: from.certainty, text: from.text };
  const because = changes.filter((change) => drawsOn(answer, change));
  return { question, headline, kind, before: short(before), after: short(after), estimates, because };
}

/**
 * What differs between two runs of one book: what changed in its sheets, and which answers moved. An answer's `because`
 * names the changes in the sheets that it draws on; when there are several, it does not say which weighed most.
 */
export function compareRuns(before: RunSnapshot, after: RunSnapshot): RunComparison {
  const changes: SheetChange[] = [
    ...trayChanges(before, after),
    ...recordChanges("costs", "cost line", before.costs, after.costs),
    ...recordChanges("products", "product", before.products, after.products),
    ...factChanges(before.settings, after.settings).map((text): SheetChange => ({ where: "settings", text })),
  ];
  const old = new Map(before.answers.map((answer) => [answer.id, answer]));
  const now = new Map(after.answers.map((answer) => [answer.id, answer]));
  const moves = [...new Set([...now.keys(), ...old.keys()])]
    .map((id) => moveOf(old.get(id), now.get(id), changes))
    .filter((move) => move !== undefined);
  return { changes, moves };
}

const mostCauses = 4;

/**
 * A comparison as lines to print; none when nothing changed.
 * @example describeChanges({ changes: [{ text: "fresh weight of C1-001: 412 g, was 421 g" }], moves: [] })[0] // "Changed in the sheets:"
 */
export function describeChanges({ changes, moves }: RunComparison): string[] {
  const lines: string[] = [];
  if (changes.length > 0) lines.push("Changed in the sheets:", ...changes.map(({ text }) => `  ${text}`));
  const headlines = moves.filter(({ headline }) => headline);
  const others = moves.length - headlines.length;
  if (moves.length > 0) lines.push("Answers that moved:");
  else if (changes.length > 0) lines.push("No answer moved.");
  for (const { question, kind, before, after, because } of headlines) {
    lines.push(`  ${question}`);
    if (kind !== "new") lines.push(`    before [${before!.certainty}] ${before!.text}`);
    if (kind !== "gone") lines.push(`    now    [${after!.certainty}] ${after!.text}`);
    const causes = because.slice(0, mostCauses).map(({ text }) => text);
    const more = because.length > causes.length ? `, and ${because.length - causes.length} more` : "";
    lines.push(
      `    ${causes.length === 0 ? "nothing in the sheets explains it: the program itself may have changed" : `because of: ${causes.join(", ")}${more}`}`,
    );
  }
  if (others > 0) lines.push(`  ${counted(others, "other answer")} in the report`);
  return lines;
}

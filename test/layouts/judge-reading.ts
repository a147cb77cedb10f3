import { cleanBook } from "../../src/cleaning/clean-book.ts";
import type { Book } from "../../src/records/book.ts";
import type { Issue } from "../../src/records/issue.ts";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { sheet as sheetOf } from "../cleaning/book-of.ts";
import { LayOut } from "./lay-out.ts";
import type { TrueTray } from "./tray-truth.ts";
import { Typist } from "./typed-sheet.ts";

/** How one mutant was read. */
export interface Judged {
  verdict: "right" | "asked" | "silent misread";
  /** the first things that differ from the truth */
  differences: string[];
  typed: string[];
  text: string;
  book: Book;
}

const isAsked = ({ severity }: Issue): boolean => severity === "error" || severity === "warning";

type Fact = readonly [field: string, read: string | number | undefined, truth: string | number | undefined];

function factsOf(tray: Tray, truth: TrueTray, hasHarvestDates: boolean): Fact[] {
  const fresh = truth.fresh.length === 0 ? undefined : truth.fresh.reduce((sum, grams) => sum + grams, 0);
  return [
    ["inoculum_ml", tray.inoculumMillilitres, truth.dose],
    ["fresh_g", tray.freshGrams, fresh],
    ["dry_g", tray.dryGrams, truth.dry],
    ["outcome", tray.outcome === "discarded" ? "contaminated" : tray.outcome, truth.isLost ? "contaminated" : "good"],
    ["batch", tray.batch, truth.batch],
    ["inoculated_on", tray.inoculatedOn, truth.inoculatedOn],
    ...(hasHarvestDates ? ([["harvested_on", tray.harvestedOn, truth.harvestedOn]] as const) : []),
  ];
}

const same = (read: string | number | undefined, truth: string | number | undefined): boolean =>
  typeof read === "number" && typeof truth === "number"
    ? Math.abs(read - truth) <= 0.006 * truth + 0.06
    : read === truth;

/**
 * Whether a difference was asked about: a value that is used and wrong only counts as asked where this very field of this
 * tray is flagged; one that is missing, where its tray, its column or the sheet is.
 */
function wasAsked(book: Book, tray: string, [field, read]: Fact): boolean {
  const headers = new Set(book.columns.filter((column) => column.field === field).map(({ header }) => header));
  return book.issues.some((issue) => {
    if (!isAsked(issue)) return false;
    const isTray = issue.tray === tray;
    if (read === "asked") return isTray || issue.tray === undefined;
    if (read !== undefined) return isTray && headers.has(issue.column);
    return isTray || issue.tray === undefined;
  });
}

/** Types, lays out and reads the mutant of a seed, and compares what was read with the truth. */
export async function judgeMutant(seed: number): Promise<Judged> {
  const typist = new Typist(seededRandom(seed));
  const sheet = typist.type();
  const { path, bytes, text } = new LayOut(sheet, typist).file();
  const book = await cleanBook([sheetOf(path, bytes)]);
  const hasHarvestDates = sheet.columns.some(({ key }) => key === "harvested");
  const differences: string[] = [];
  let silent = 0;
  const differs = (what: string, asked: boolean): void => {
    differences.push(`${what}${asked ? " (asked)" : ""}`);
    if (!asked) silent++;
  };
  const saidOfSheet = book.issues.some((issue) => isAsked(issue) && (issue.tray === undefined || issue.row === 0));
  for (const truth of sheet.trays) {
    const found = book.trays.filter(({ trayId }) => trayId === truth.name);
    if (found.length !== 1) {
      const asked = saidOfSheet || book.issues.some((issue) => isAsked(issue) && issue.tray === truth.name);
      differs(`${truth.name} is ${found.length} trays`, asked);
      continue;
    }
    for (const fact of factsOf(found[0]!, truth, hasHarvestDates)) {
      const [field, read, right] = fact;
      if (!same(read, right)) differs(`${truth.name} ${field} ${read} not ${right}`, wasAsked(book, truth.name, fact));
    }
  }
  for (const { trayId } of book.trays) {
    if (sheet.trays.some(({ name }) => name === trayId)) continue;
    differs(
      `a tray ${trayId} that is none`,
      book.issues.some((issue) => isAsked(issue) && issue.tray === trayId),
    );
  }
  const verdict = silent > 0 ? "silent misread" : differences.length > 0 ? "asked" : "right";
  return { verdict, differences, typed: sheet.typed, text, book };
}

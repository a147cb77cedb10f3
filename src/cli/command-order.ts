import { capital } from "../../analyses/comparison/level-text.ts";
import { doubtsThatMove, moneyDoubts, withoutText } from "../../analyses/costs/money-doubts.ts";
import { percent } from "../../analyses/due/due-lines.ts";
import { type OrderPlan, startForOrder } from "../../analyses/planning/start-for-order.ts";
import { trialOf } from "../engine/trial-of.ts";
import { dayWords } from "../planning/day-words.ts";
import type { Book } from "../records/book.ts";
import { counted } from "../records/counted.ts";
import { toCanonical, unitNamed } from "../records/words/units.ts";
import { sentenceText } from "../report/format-quantity.ts";
import { openBookFolder, requireTrays } from "./open-book.ts";
import { PlainFailure } from "./plain-failure.ts";
import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";
import type { Stated } from "./stated-settings.ts";
import { dateOption, today } from "./today.ts";

export interface OrderOptions {
  set?: ReadonlyArray<Stated>;
  /** "1.5 kg dried" */
  order: string;
  /** ISO 8601 date */
  by?: string;
  /** chance wanted, % */
  sure?: number;
  /** ISO 8601 date of today */
  on?: string;
}

const exampleDay = "2026-12-18";
const example = 'give a weight and its state, such as --order "1.5 kg dried" or "20 lb fresh"';

/** Grams and state of an order as typed. @throws PlainFailure if it is none */
function orderedGrams(text: string): { grams: number; weight: "dry" | "fresh" } {
  const typed = /^\s*(\d+(?:\.\d+)?)\s*([a-z]+)\s+(dry|dried|fresh)\s*$/i.exec(text);
  const unit = typed === null ? undefined : unitNamed(typed[2]!, "mass");
  const grams = typed === null || unit === undefined ? 0 : toCanonical(Number(typed[1]), unit);
  if (!(grams > 0)) throw new PlainFailure(`--order: ${example}; received ${text}.`);
  return { grams, weight: typed![3]!.toLowerCase() === "fresh" ? "fresh" : "dry" };
}

/** "1 load", "2 cooks": what is started on one day is a load where that is all of a cook. */
const lotsWords = ({ isOneLoad }: OrderPlan, count: number): string => counted(count, isOneLoad ? "load" : "cook");

function startLine(plan: OrderPlan, asked: string): string {
  const { starts, traysPerCook, growing } = plan;
  const trays = starts.length * traysPerCook;
  if (starts.length === 0) return `${asked}: start nothing; the ${growing} trays that grow are enough.`;
  const days = starts.map(dayWords);
  const when =
    days.length === 1
      ? `by ${days[0]}`
      : `by ${days.slice(0, -1).join(", ")} and ${days.at(-1)}, one on each day at the latest`;
  return `${asked}: start ${lotsWords(plan, starts.length)} of ${traysPerCook} trays (${trays} trays in all) ${when}.`;
}

/** A chance in words; one that falls short of the chance wanted is never rounded up to it. */
const shortOf = (chance: number, sure: number): string =>
  chance < sure && Math.round(chance * 100) >= Math.round(sure * 100)
    ? `${(Math.floor(chance * 1000) / 10).toFixed(1)}%`
    : percent(chance);

/** Chances with fewer and more loads, so that one more or less can be weighed. */
function chanceLine(plan: OrderPlan, sure: number): string {
  const { chances, starts } = plan;
  const said = [starts.length - 1, starts.length, starts.length + 1].flatMap((loads) =>
    chances[loads] === undefined
      ? []
      : [`${shortOf(chances[loads], sure)} with ${loads === 0 ? "no new load" : lotsWords(plan, loads)}`],
  );
  return `Chance that it is enough: ${said.join(", ")}.`;
}

/** An order and what to start for it, in lines of text. @throws PlainFailure if the book or an option does not allow it */
function orderText(book: Book, options: OrderOptions & { on: string }): string[] {
  const { grams, weight } = orderedGrams(options.order);
  if (options.by === undefined)
    throw new PlainFailure(`--order: give the day it is wanted, such as --by ${exampleDay}.`);
  const by = dateOption("--by", options.by, exampleDay);
  const on = dateOption("--on", options.on, exampleDay);
  if (by <= on) throw new PlainFailure(`--by: the day must lie after ${on}; received ${by}.`);
  const sure = options.sure ?? 90;
  if (!(sure >= 50 && sure <= 99)) throw new PlainFailure(`--sure: give a chance from 50 to 99%; received ${sure}.`);
  const trial = trialOf(book);
  const plan = startForOrder(trial, { grams, weight, by, sure: sure / 100, on });
  if (plan.kind === "cannot-tell") {
    throw new PlainFailure(
      `Nothing can be said for this order: the book has ${plan.reason}. Record more cooks first.`,
      1,
    );
  }
  const missing = withoutText(doubtsThatMove(moneyDoubts(trial), "trays and grams"));
  const { basis, starts, traysPerCook, costPerTray, freePlaces, gap } = plan;
  const says = (parts: Parameters<typeof sentenceText>[0]) => sentenceText(parts, book.settings);
  const state = weight === "dry" ? "dried" : "fresh";
  const ordered = { value: grams, unit: "g" };
  const asked = says([ordered, ` ${state} by ${dayWords(by)} ${by.slice(0, 4)}, ${sure}% sure`]);
  const places = starts.length * traysPerCook;
  return [
    plan.isEnough
      ? startLine(plan, asked)
      : `${asked}: cannot be promised. ${starts.length === 0 ? "No load started now is picked in time" : `Started now, ${lotsWords(plan, starts.length)} of ${traysPerCook} trays fit in at one every ${gap} days`}; a later day, a smaller order or more trays at a time would do.`,
    chanceLine(plan, sure / 100),
    says([
      "Expected ",
      { value: plan.grams.likely, unit: "g" },
      ", 8 of 10 times ",
      { from: plan.grams.low, to: plan.grams.high, unit: "g" },
      ...(plan.growingGrams < 1
        ? ["; no tray that grows now is picked in time."]
        : [`; ${plan.growing} growing trays count in with `, { value: plan.growingGrams, unit: "g" }, " of it."]),
    ]),
    says([
      `From ${basis.good} good trays${basis.kept}: `,
      { value: basis.mean, unit: "g" },
      ` ${state} each; ${basis.lost} of ${basis.finished} finished trays of ${basis.cooks} cooks ${basis.lost === 1 ? "was" : "were"} lost; 19 of 20 are picked by day ${plan.pickedBy}${plan.dryingDays === 0 ? "" : `, and drying takes ${plan.dryingDays} days`}.`,
    ]),
    ...(costPerTray === undefined || places === 0
      ? []
      : [
          says([
            `The new trays cost about `,
            { value: costPerTray * places, unit: "money" },
            ` to grow, with their share of all costs.${missing === "" ? "" : ` ${capital(missing)}.`}`,
          ]),
        ]),
    ...(places > freePlaces
      ? [
          `The shelves have ${Math.max(0, freePlaces)} places free (shelf_places in settings.csv) and ${places} are wanted in all: earlier trays must leave first.`,
        ]
      : []),
    "What is in store already is not in the sheets: take it off the order.",
  ];
}

/**
 * `gramwright plan --order`: which loads to start, and by when, so that an order is met as surely as wanted.
 * @throws PlainFailure if the book cannot be read or an option makes no sense
 */
export async function planOrder(path: string, options: OrderOptions): Promise<void> {
  const progress = terminalProgress();
  const { book } = await openBookFolder(path, progress, { set: options.set });
  progress.done();
  requireTrays(book, path);
  print(`${orderText(book, { ...options, on: options.on ?? today() }).join("\n")}\n`);
}

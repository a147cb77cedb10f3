import { join } from "node:path";
import { layOutTrial } from "../../analyses/planning/lay-out-trial.ts";
import { proposeTrial } from "../../analyses/planning/propose-trial.ts";
import type { TrialWishes, WantedLayout } from "../../analyses/planning/trial-wishes.ts";
import { writeCsv } from "../csv/write-csv.ts";
import { trialOf } from "../engine/trial-of.ts";
import { loadMap } from "../planning/load-map.ts";
import { nextCooks } from "../planning/next-cooks.ts";
import { plannedRows } from "../planning/planned-rows.ts";
import { sharedByLatest } from "../planning/shared-by-latest.ts";
import { trayLabels } from "../planning/tray-labels.ts";
import type { TrialPlan } from "../planning/trial-plan.ts";
import type { Book } from "../records/book.ts";
import { plannedTrialOf } from "../records/planned-trial.ts";
import { sentenceText } from "../report/format-quantity.ts";
import { openBookFolder, requireTrays } from "./open-book.ts";
import { writeOutputs } from "./output/output-set.ts";
import { PlainFailure } from "./plain-failure.ts";
import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";
import { besideBook } from "./read-book-folder.ts";
import type { Stated } from "./stated-settings.ts";
import { today } from "./today.ts";

export interface PlanOptions {
  /** settings and columns stated on the command line */
  set?: ReadonlyArray<Stated>;
  /** folder the sheet, labels and map go into; beside the book unless given */
  out?: string;
  /** mL per tray */
  doses?: ReadonlyArray<number>;
  /** trays of each dose in each cook */
  trays?: number;
  cooks?: number;
  seed?: number;
  /** ISO 8601 date of the plan; today unless given */
  on?: string;
  layout: WantedLayout;
  /** chambers of a split layout */
  chambers?: ReadonlyArray<string>;
  /** their fruiting temperatures, °C */
  temperatures?: ReadonlyArray<number>;
  /** the most trays, or money, that the trial may take */
  budget?: { trays: number } | { money: number };
  /** write the files of a trial that is better not run, too */
  anyway?: boolean;
}

const planFiles = ["planned-harvest.csv", "tray-labels.html", "cooker-loads.html"] as const;

/** The files of a plan by name. */
export type PlanFiles = Record<(typeof planFiles)[number], string>;

const distinct = <T>(values: ReadonlyArray<T | undefined>): T[] => [
  ...new Set(values.filter((value): value is T => value !== undefined)),
];

/** More than this no tray takes; common practice, no source. */
const mostMillilitres = 1000;

/** Fruiting temperatures a mushroom could be grown at, °C. */
const likely = { least: 0, most: 40 };

/** Chambers and temperatures of a split layout: as asked for, else the book's. @throws PlainFailure if they cannot be swapped */
function roomsOf(book: Book, { layout, chambers, temperatures }: PlanOptions): { rooms: string[]; celsius: number[] } {
  if (layout !== "split") {
    const asked = chambers !== undefined ? "--chambers" : temperatures !== undefined ? "--temperatures" : undefined;
    if (asked !== undefined) throw new PlainFailure(`${asked}: it belongs to --layout split; received ${layout}.`);
    return { rooms: [], celsius: [] };
  }
  const rooms = distinct(chambers ?? book.trays.map(({ chamber }) => chamber)).filter((name) => name !== "");
  const celsius = distinct(temperatures ?? book.trays.map(({ fruitingCelsius }) => fruitingCelsius));
  const wrong = celsius.find((value) => value < likely.least || value > likely.most);
  if (wrong !== undefined && temperatures !== undefined) {
    throw new PlainFailure(
      `--temperatures: fruiting temperatures lie from ${likely.least} to ${likely.most} °C; received ${wrong}.`,
    );
  }
  const asked = chambers !== undefined && temperatures !== undefined;
  if (rooms.length < 2 || celsius.length < 2 || (asked && rooms.length !== celsius.length)) {
    throw new PlainFailure(
      `--layout split: it needs two or more chambers and as many fruiting temperatures; there are ${rooms.length} and ${celsius.length}. Give them with --chambers tent,cupboard --temperatures 15,18, or use --layout blocks.`,
    );
  }
  const count = Math.min(rooms.length, celsius.length);
  return { rooms: rooms.slice(0, count), celsius: celsius.slice(0, count).sort((a, b) => a - b) };
}

/** Doses and counts as wanted, checked. @throws PlainFailure if one makes no sense */
function wishesOf(book: Book, options: PlanOptions): TrialWishes & { rooms: string[]; celsius: number[] } {
  const { doses, trays, cooks, layout } = options;
  const wrong = doses?.find((dose) => !(dose > 0 && dose <= mostMillilitres));
  if (wrong !== undefined) {
    throw new PlainFailure(`--doses: a dose is above 0 and at most ${mostMillilitres} mL a tray; received ${wrong}.`);
  }
  for (const [name, value] of [
    ["--trays", trays],
    ["--cooks", cooks],
  ] as const) {
    if (value !== undefined && !(value >= 1 && value <= 200)) {
      throw new PlainFailure(`${name}: give a whole number from 1 to 200; received ${value}.`);
    }
  }
  const { rooms, celsius } = roomsOf(book, options);
  return {
    ...(doses === undefined ? {} : { doses }),
    ...(trays === undefined ? {} : { traysPerDose: trays }),
    ...(cooks === undefined ? {} : { cooks }),
    ...(options.budget === undefined
      ? {}
      : "trays" in options.budget
        ? { mostTrays: options.budget.trays }
        : { mostMoney: options.budget.money }),
    layout,
    chambers: rooms.length,
    rooms,
    celsius,
  };
}

/**
 * Proposes the next trial of a book, lays it out and writes its files as text.
 * @throws PlainFailure if an option makes no sense, or nothing can be proposed or laid out
 */
export function planFor(
  book: Book,
  options: PlanOptions,
): { says: string[]; against?: string; plan: TrialPlan; files: PlanFiles } {
  const wishes = wishesOf(book, options);
  const seed = options.seed ?? book.settings.seed;
  const proposal = proposeTrial(trialOf(book), wishes);
  if (proposal.kind === "cannot-tell") {
    throw new PlainFailure(`No trial can be proposed: ${proposal.reason}. ${proposal.remedy}.`, 1);
  }
  if (options.layout === "latin" && options.cooks !== undefined && options.cooks !== proposal.arms.length) {
    throw new PlainFailure(
      `--layout latin: ${proposal.arms.length} doses need ${proposal.arms.length} cooks; received --cooks ${options.cooks}.`,
    );
  }
  const planned = book.planned ?? [];
  const known = distinct([...book.trays, ...planned].map(({ batch }) => batch));
  const cooks = nextCooks(known, proposal.cooks);
  const takenIds = new Set([...book.trays, ...planned].map(({ trayId }) => trayId));
  const layOut = (prefix: string): TrialPlan =>
    layOutTrial({
      layout: options.layout,
      arms: proposal.arms,
      traysPerArm: proposal.traysPerArm,
      cooks,
      traysPerLoad: proposal.traysPerLoad,
      seed,
      prefix,
      chambers: wishes.rooms,
      fruitingCelsius: wishes.celsius,
    });
  let plan: TrialPlan;
  try {
    plan = layOut("");
    for (let k = 1; plan.trays.some(({ trayId }) => takenIds.has(trayId)); k++) plan = layOut(`P${k}-`);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new PlainFailure(`The trial cannot be laid out: ${error.message}. Give fewer doses, or --layout blocks.`);
  }
  const trial = { plannedOn: options.on ?? today(), varies: proposal.column, cooks: cooks.length };
  const title = `Trial over cooks ${cooks[0]} to ${cooks.at(-1)}`;
  const waiting = distinct(planned.map(plannedTrialOf).map((one) => one?.plannedOn));
  return {
    says: [
      ...waiting.map(
        (on) =>
          `The trial planned on ${on} is in the book and not started yet: its trays count once dates are filled in.`,
      ),
      ...proposal.says.map((sentence) => sentenceText(sentence, book.settings)),
      `Layout: ${plan.arrangement}, drawn at random with seed ${seed}; cooks ${cooks.join(", ")}.`,
    ],
    ...(proposal.against === undefined ? {} : { against: sentenceText(proposal.against, book.settings) }),
    plan,
    files: {
      "planned-harvest.csv": writeCsv(plannedRows(plan, trial, sharedByLatest(book.trays)), { guard: true }),
      "tray-labels.html": trayLabels(plan, `Tray labels: ${title}`),
      "cooker-loads.html": loadMap(plan, `Cooker loads: ${title}`),
    },
  };
}

/**
 * `gramwright plan`: proposes and lays out the next trial, and writes its sheet, labels and load map;
 * nothing where it is better not run, unless asked to.
 * @throws PlainFailure if the book cannot be read, an option makes no sense, or the files cannot be written
 */
export async function planTrial(path: string, options: PlanOptions): Promise<void> {
  const progress = terminalProgress();
  const out = options.out ?? join(besideBook(path), "next-trial");
  const outputs = planFiles.map((name) => ({ name, path: join(out, name), kind: "sheet" as const, option: "--out" }));
  const { book, folder } = await openBookFolder(path, progress, { set: options.set, outputs });
  requireTrays(book, path);
  progress.say("planning the trial");
  const { says, against, files } = planFor(book, options);
  progress.done();
  if (against !== undefined && options.anyway !== true) {
    print(
      `${[...says, "", `Better not run it. ${against}`, "Nothing was written; --anyway writes it all the same."].join("\n")}\n`,
    );
    return;
  }
  const paths = writeOutputs(
    outputs.map(({ name, ...output }) => ({ ...output, text: files[name] })),
    folder,
  );
  const [sheet, labels, map] = paths;
  print(
    `${[
      ...says,
      ...(against === undefined ? [] : [`Better not run it. ${against}`]),
      "",
      `Sheet to fill in:  ${sheet} (put it into the book's harvests folder when the trial starts)`,
      `Labels to print:   ${labels}`,
      `Cooker loads:      ${map}`,
    ].join("\n")}\n`,
  );
}

#!/usr/bin/env node
import { setFlagsFromString } from "node:v8";
import { Command, CommanderError, Option } from "commander";
import { version } from "../engine/version.ts";
import { visibleText } from "../report/visible-text.ts";
import {
  budget,
  doseList,
  nameList,
  outFolder,
  pageOf,
  pathOf,
  statedSetting,
  temperatureList,
  wholeNumber,
} from "./option-values.ts";
import { PlainFailure } from "./plain-failure.ts";
import { print, printError } from "./print.ts";

/** Refuses an option that would be passed over. */
function requireFit(options: Record<string, unknown>): void {
  const orderOnly = ["by", "sure"];
  const trialOnly = ["doses", "trays", "cooks", "budget", "anyway", "chambers", "temperatures", "out"];
  const wrong = (options.order === undefined ? orderOnly : trialOnly).find((name) => options[name] !== undefined);
  if (wrong === undefined) return;
  throw new PlainFailure(
    options.order === undefined
      ? `--${wrong}: it belongs to an order. Give the order too, such as --order "1.5 kg dried".`
      : `--${wrong}: it belongs to a trial. Leave out --order, or --${wrong}.`,
  );
}

const setHelp =
  "a setting as in settings.csv, or what a column holds (column:HEADER=FIELD); may be given several times";

function addNew(program: Command): void {
  program
    .command("new")
    .argument("<folder>", "folder to make; must not exist or be empty", pathOf)
    .description("start a book: a folder of headed, empty sheets and a note on what goes where")
    .option(
      "--from <sheet>",
      "start it from a harvest sheet you have: it is copied, and what it leaves open is asked",
      pathOf,
    )
    .addHelpText("after", "\nExample:\n  gramwright new my-trays --from spring.csv")
    .action(async (folder: string, options) => (await import("./command-new.ts")).startBook(folder, options));
}

function addCheck(program: Command): void {
  program
    .command("check")
    .argument("<book>", "folder of a book, or one sheet", pathOf)
    .description("clean the sheets without analysing them, and print what was found; exit code 1 when there are errors")
    .option("--set <key=value>", setHelp, statedSetting)
    .option("--all", "print every entry of the log, not the groups")
    .option("--fixed <file>", "write the cleaned harvest rows as CSV; the originals stay as they are", pathOf)
    .option("--log <file>", "write the whole log as CSV", pathOf)
    .option("--columns <file>", "write a columns.csv that pins how the columns were read", pathOf)
    .option("--json", "print the log as JSON")
    .addHelpText("after", "\nExample:\n  gramwright check my-trays --fixed cleaned.csv --log log.csv")
    .action(async (book: string, options) => (await import("./command-check.ts")).checkBook(book, options));
}

function addReport(program: Command): void {
  program
    .command("report")
    .argument("<book>", "folder of a book, or one harvest sheet", pathOf)
    .description("clean, analyse, and write one HTML report that needs no network")
    .option("-o, --out <folder>", "where the report goes; beside the book unless given", outFolder)
    .option("--json", "print the answers as JSON")
    .option("--set <key=value>", setHelp, statedSetting)
    .option("--seed <number>", "start of everything random, instead of the book's own", wholeNumber)
    .option("--plain", "leave out what makes the report's sheets editable in a browser: a smaller file")
    .option("--strict", "exit code 1 when a row could not be read or money is missing")
    .addHelpText("after", "\nExample:\n  gramwright report my-trays --out reports")
    .action(async (book: string, options) => {
      const thread = (await import("./drawing/drawing-thread.ts")).DrawingThread.start();
      await (await import("./command-report.ts")).reportOnBook(book, options, thread);
    });
}

function addPrices(program: Command): void {
  program
    .command("prices")
    .argument("<book>", "folder of a book with costs.csv and products.csv", pathOf)
    .description(
      "print the price list: what each product costs, its floor, break-even and target price, what it earns now",
    )
    .option("-o, --out <file>", "write the list as CSV too", pathOf)
    .option("--set <key=value>", setHelp, statedSetting)
    .option("--json", "print the list as JSON")
    .option("--strict", "exit code 1 when money is missing from the list")
    .addHelpText("after", "\nExample:\n  gramwright prices my-trays --out prices.csv")
    .action(async (book: string, options) => (await import("./command-prices.ts")).printPrices(book, options));
}

function addPlan(program: Command): void {
  program
    .command("plan")
    .argument("<book>", "folder of a book", pathOf)
    .description(
      "propose the next trial from the book's own scatter and money; write its sheet, tray labels and cooker map; or say what to start for an order",
    )
    .option("-o, --out <folder>", "where the three files go; next-trial beside the book unless given", outFolder)
    .option("--set <key=value>", setHelp, statedSetting)
    .option("--doses <list>", "doses in mL, with commas between them, instead of the proposed ones", doseList)
    .option("--trays <number>", "trays of each dose in each cook", wholeNumber)
    .option("--cooks <number>", "number of cooks", wholeNumber)
    .option("--budget <amount>", 'the most it may take: trays ("36 trays"), or what its trays cost (200)', budget)
    .option("--anyway", "write it even where it is better not run")
    .option("--seed <number>", "start of the random order, instead of the book's own", wholeNumber)
    .addOption(
      new Option("--layout <kind>", "how trays are laid out").choices(["blocks", "latin", "split"]).default("blocks"),
    )
    .option(
      "--chambers <list>",
      "chambers of a split layout, with commas between them, instead of the book's",
      nameList,
    )
    .option(
      "--temperatures <list>",
      "their fruiting temperatures in °C (or 59F), instead of the book's; each is swapped from chamber to chamber",
      temperatureList,
    )
    .option("--order <amount>", 'which loads to start for an order instead of a trial: "1.5 kg dried"')
    .option("--by <date>", "day the order is wanted, year-month-day")
    .option("--sure <percent>", "chance wanted that the order is met, 50 to 99; 90 unless given", wholeNumber)
    .option("--on <date>", "day an order is planned on; today unless given")
    .addHelpText(
      "after",
      '\nExamples:\n  gramwright plan my-trays --order "1.5 kg dried" --by 2026-12-18 --sure 90\n  gramwright plan my-trays --doses 6,9,12 --out next-trial\n  gramwright plan my-trays --layout split --chambers tent,cupboard --temperatures 15,18',
    )
    .action(async (book: string, options) => {
      requireFit(options);
      if (options.order === undefined) await (await import("./command-plan.ts")).planTrial(book, options);
      else await (await import("./command-order.ts")).planOrder(book, options);
    });
}

function addDue(program: Command): void {
  program
    .command("due")
    .argument("<book>", "folder of a book, or one harvest sheet", pathOf)
    .description("print what is due of every growing tray, day by day, from the book's own days")
    .option("--on <date>", "the day the list is for, year-month-day; today unless given")
    .option("--ics <file>", "write it as a calendar file, which a phone's calendar reads", pathOf)
    .option("--week <file>", "write the next seven days as a page to print", pageOf)
    .addHelpText("after", "\nExample:\n  gramwright due my-trays --ics trays.ics --week week.html")
    .action(async (book: string, options) => (await import("./command-due.ts")).printDue(book, options));
}

function addWatch(program: Command): void {
  program
    .command("watch")
    .argument("<book>", "folder of a book, or one harvest sheet", pathOf)
    .description("write the report again whenever a sheet is dropped or saved, and say what changed; Ctrl-C ends it")
    .option("-o, --out <folder>", "where the report goes; beside the book unless given", outFolder)
    .addHelpText("after", "\nExample:\n  gramwright watch my-trays --out reports")
    .action(async (book: string, options) => {
      const { isGuarded, runGuarded } = await import("./watching/run-guarded.ts");
      if (isGuarded()) await (await import("./command-watch.ts")).watchBook(book, options);
      else process.exitCode = await runGuarded();
    });
}

function addPage(program: Command): void {
  program
    .command("page")
    .argument("<file>", "HTML file to write", pageOf)
    .description(
      "write the page that sheets can be dropped on: all of this without a terminal, from disk, without a network",
    )
    .addHelpText("after", "\nExample:\n  gramwright page drop-page.html")
    .action(async (file: string) => (await import("./command-page.ts")).writePage(file));
}

/** Help by name, which says so where there is no such command. */
function addHelp(program: Command): void {
  program
    .command("help")
    .argument("[command]")
    .description("show help for a command")
    .action((name: string | undefined) => {
      const about = name === undefined ? program : program.commands.find((command) => command.name() === name);
      if (about === undefined) program.error(`error: unknown command '${name}'`);
      else about.outputHelp();
    });
}

function buildProgram(): Command {
  const program = new Command("gramwright")
    .description(
      "Reads a mushroom-tray grower's harvest, cost and product sheets. Says what was wrong with them, which dose really changed the yield, and what a good gram cost.",
    )
    .version(version, "-v, --version", "print the version")
    .helpOption("-h, --help", "show this help")
    .helpCommand(false)
    .showHelpAfterError("Run with --help to see what is possible.")
    .exitOverride()
    .configureOutput({
      writeOut: print,
      writeErr: printError,
      outputError: (text, write) => write(`gramwright: ${text.replace(/^error: /, "")}`),
    })
    .addHelpText(
      "after",
      `
A book is a folder: harvests/*.csv, and costs.csv, products.csv, settings.csv if you have them.
One harvest sheet on its own will do too.

Examples:
  gramwright new my-trays                      start a book with empty sheets
  gramwright check my-trays                    see what is wrong with the sheets
  gramwright report my-trays --out reports     write the report
  gramwright report spring.csv                 report on one sheet
  gramwright prices my-trays                   what to charge
  gramwright due my-trays                      what is due, day by day
  gramwright plan my-trays                     lay out the next trial
  gramwright watch my-trays --out reports      report again whenever a sheet is saved
  gramwright page drop-page.html               the same as a page to drop sheets on`,
    );
  for (const add of [addNew, addCheck, addReport, addPrices, addPlan, addDue, addWatch, addPage, addHelp]) add(program);
  return program;
}

// Has Node 20 compile code for speed six times later than it would: a command is over before most of its code has paid for
// that, and what runs for long is compiled all the same. Newer versions of Node have no such flag.
if (process.versions.node.startsWith("20.")) setFlagsFromString("--interrupt-budget=800000");
// whoever reads the output may have seen enough of it ("| head"); what a command writes to files is written all the same
for (const stream of [process.stdout, process.stderr])
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
  });
try {
  await buildProgram().parseAsync();
} catch (error) {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? 0 : 2; // 1 says that something is wrong with the sheets
  } else if (error instanceof PlainFailure) {
    printError(`gramwright: ${visibleText(error.message, Number.POSITIVE_INFINITY)}\n`); // a file's name can hold a line end
    process.exitCode = error.exitCode;
  } else {
    const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
    printError(
      `gramwright: something went wrong in the program itself, not in your sheets (${what.replace(/\s+/g, " ")}). Nothing was changed. Set GRAMWRIGHT_TRACE=1 to see where.\n`,
    );
    if (process.env.GRAMWRIGHT_TRACE && error instanceof Error) printError(`${error.stack}\n`);
    process.exitCode = 70;
  }
}

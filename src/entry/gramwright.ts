#!/usr/bin/env node
import { Command, CommanderError, InvalidArgumentError } from "commander";
import { PlainFailure } from "./plain-failure.ts";
import { version } from "./version.ts";

/** Reads a whole number of 0 or more from the command line. */
function wholeNumber(text: string): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || !Number.isSafeInteger(value)) throw new InvalidArgumentError("Give a whole number.");
  return value;
}

function buildProgram(): Command {
  const program = new Command("gramwright")
    .description(
      "Reads a mushroom-tray grower's harvest, cost and product sheets; says what was wrong with them, which dose really changed the yield, and what a good gram cost.",
    )
    .version(version, "-v, --version", "print the version")
    .helpOption("-h, --help", "show this help")
    .helpCommand("help [command]", "show help for a command")
    .showHelpAfterError("Run with --help to see what is possible.")
    .exitOverride()
    .configureOutput({ outputError: (text, write) => write(`gramwright: ${text.replace(/^error: /, "")}`) })
    .addHelpText(
      "after",
      `
A book is a folder: harvests/*.csv, and costs.csv, products.csv, settings.csv if you have them.
One harvest sheet on its own will do too.

Examples:
  gramwright new my-trays                      start a book with empty sheets
  gramwright check my-trays                    see what is wrong with the sheets
  gramwright report my-trays --out reports     write the report
  gramwright report spring.csv                 report on one sheet`,
    );

  program
    .command("new")
    .argument("<folder>", "folder to make; must not exist or be empty")
    .description("start a book: a folder of headed, empty sheets and a note on what goes where")
    .action(async (folder: string) => (await import("./command-new.ts")).newBook(folder));

  program
    .command("check")
    .argument("<book>", "folder of a book, or one sheet")
    .description("clean the sheets without analysing them, and print what was found; exit code 1 when there are errors")
    .option("--all", "print every entry of the log, not the groups")
    .option("--fixed <file>", "write the cleaned harvest rows as CSV; the originals stay as they are")
    .option("--log <file>", "write the whole log as CSV")
    .option("--columns <file>", "write a columns.csv that pins how the columns were read")
    .option("--json", "print the log as JSON")
    .addHelpText("after", "\nExample:\n  gramwright check my-trays --fixed cleaned.csv --log log.csv")
    .action(async (book: string, options) => (await import("./command-check.ts")).checkBook(book, options));

  program
    .command("report")
    .argument("<book>", "folder of a book, or one harvest sheet")
    .description("clean, analyse, and write one HTML report that needs no network")
    .option("-o, --out <folder>", "where the report goes", ".")
    .option("--json", "print the answers as JSON")
    .option("--seed <number>", "start of everything random, instead of the book's own", wholeNumber)
    .addHelpText("after", "\nExample:\n  gramwright report my-trays --out reports")
    .action(async (book: string, options) => (await import("./command-report.ts")).reportOnBook(book, options));

  return program;
}

try {
  await buildProgram().parseAsync();
} catch (error) {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode;
  } else if (error instanceof PlainFailure) {
    process.stderr.write(`gramwright: ${error.message}\n`);
    process.exitCode = error.exitCode;
  } else {
    const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
    process.stderr.write(
      `gramwright: something went wrong in the program itself, not in your sheets (${what.replace(/\s+/g, " ")}). Nothing was changed. Set GRAMWRIGHT_TRACE=1 to see where.\n`,
    );
    if (process.env.GRAMWRIGHT_TRACE && error instanceof Error) process.stderr.write(`${error.stack}\n`);
    process.exitCode = 70;
  }
}

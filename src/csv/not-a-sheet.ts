import type { Issue } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { FileKind } from "./file-kind.ts";

/** Why a file cannot be read as a sheet. */
export type NotASheet =
  | Exclude<FileKind, "text" | "compound">
  | "text document"
  | "slides"
  | "old workbook"
  | "binary workbook"
  | "other program's workbook"
  | "protected workbook"
  | "damaged workbook"
  | "huge workbook"
  | "many cells"
  | "many tabs"
  | "many columns"
  | "endless line"
  | "endless row"
  | "no table"
  | "unreadable";

const saveAgain = "Open it in a spreadsheet program and save it as CSV (UTF-8), then use that file";

const sayings: Record<NotASheet, readonly [what: string, action: string]> = {
  empty: ["the file is empty", "Put a header row and data into it, or remove it"],
  pdf: ["this is a PDF document, not a sheet", "Export the table as CSV from where it was made"],
  image: ["this is a picture, not a sheet", "Type the table into a sheet and save it as CSV (UTF-8)"],
  compressed: ["this is a compressed file, not a sheet", "Unpack it and use the sheet inside"],
  "rich text": ["this is a rich-text document, not a sheet", "Copy the table into a sheet and save it as CSV (UTF-8)"],
  "web page": ["this is a web page (HTML), not a sheet, whatever its name says", saveAgain],
  XML: ["this is an XML file, not a sheet, whatever its name says", saveAgain],
  JSON: ["this is a JSON file, not a sheet", "Export the data as CSV from where it was made"],
  database: ["this is a database file, not a sheet", "Export the table as CSV from the database"],
  unknown: ["this is a binary file, not a sheet", saveAgain],
  zip: ["this is a zip archive, not a sheet", "Unpack it and use the sheets inside"],
  "text document": [
    "this is a word processor's document, not a sheet",
    "Copy the table into a sheet and save it as CSV (UTF-8)",
  ],
  slides: ["this is a slide show, not a sheet", "Copy the table into a sheet and save it as CSV (UTF-8)"],
  "old workbook": [
    "this is a workbook in the old .xls format, which is not read",
    "Save it as .xlsx, .ods or CSV (UTF-8)",
  ],
  "binary workbook": [
    "this is a workbook in the .xlsb format, which is not read",
    "Save it as .xlsx, .ods or CSV (UTF-8)",
  ],
  "other program's workbook": [
    "this is a workbook in a format that is not read",
    "Export it as .xlsx, .ods or CSV (UTF-8)",
  ],
  "protected workbook": [
    "this workbook is protected by a password",
    "Save a copy without a password, or as CSV (UTF-8)",
  ],
  "damaged workbook": [
    "this workbook is damaged and cannot be read",
    "Open it in a spreadsheet program, let it repair the file, and save it again",
  ],
  "huge workbook": [
    "this workbook is too large to be read at once",
    "Save the sheet as CSV (UTF-8): those are read piece by piece",
  ],
  "many cells": [
    "this workbook has more cells than are read at once, with the empty ones left of the last in each row",
    "Delete what stands far right of the table, or save the sheet as CSV (UTF-8): those are read piece by piece",
  ],
  "many tabs": [
    "this workbook has more tabs than are read at once",
    "Put the tabs that belong to the book into workbooks of their own, or save each as CSV (UTF-8)",
  ],
  "many columns": [
    "a row of this workbook has more filled cells than are read",
    "Give each tray a row of its own, or delete what stands right of the table, and save the workbook again",
  ],
  "endless line": [
    "one of its first lines is longer than that of any sheet",
    "See that every tray has a line of its own, and save the sheet as CSV (UTF-8) again",
  ],
  "endless row": [
    "a row with something in it is repeated thousands of times, down to the end of the sheet",
    "Delete the rows below the last tray and save the workbook again",
  ],
  "no table": [
    "none of the workbook’s tabs holds a table with column names",
    "Put a row of column names above the data",
  ],
  unreadable: ["the file cannot be read", "Check that it still exists and may be read, then try again"],
};

/**
 * The one error that says what a file really is and what to do.
 * @param detail more about it, put at the end of the reason
 */
export function notASheet(file: string, why: NotASheet, detail = ""): Issue {
  const [what, action] = sayings[why];
  return logEntry({
    file,
    rule: why === "empty" ? "empty-file" : "not-a-sheet",
    severity: "error",
    reason: detail === "" ? what : `${what} (${detail})`,
    expected: "a CSV, .xlsx or .ods sheet with one header row",
    action,
  });
}

import type { SheetSource } from "../../records/sheet.ts";
import { allBytes } from "../all-bytes.ts";
import { type NotASheet, notASheet } from "../not-a-sheet.ts";
import type { OpenedSheet } from "../shape/table-of.ts";
import { readOds } from "./read-ods.ts";
import { readXlsxSheet, sharedStrings, xlsxNotes } from "./read-xlsx.ts";
import { CellCount, largestArchive, largestParts, WorkbookLimit } from "./workbook-limit.ts";
import { openTabs, type WorkbookOptions, type WorkbookTab } from "./workbook-tabs.ts";
import { xlsxParts } from "./xlsx-parts.ts";
import { cellStyles } from "./xlsx-styles.ts";
import { ZipEntries } from "./zip-entries.ts";

const odsMimetype = "application/vnd.oasis.opendocument.spreadsheet";

const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
const refused = (file: string, why: NotASheet, detail = ""): OpenedSheet => ({
  tables: [],
  issues: [notASheet(file, why, detail)],
  leftOut: [],
});

/** What an archive without a workbook's parts is. */
function otherArchive(file: string, names: ReadonlyArray<string>): OpenedSheet {
  const has = (pattern: RegExp) => names.some((name) => pattern.test(name));
  if (has(/^xl\/workbook\.bin$/i)) return refused(file, "binary workbook");
  if (has(/^word\//i)) return refused(file, "text document");
  if (has(/^ppt\//i)) return refused(file, "slides");
  if (has(/^Index\/.*\.iwa$|^Index\.zip$/i)) return refused(file, "other program's workbook");
  const shown = names.filter((name) => !name.endsWith("/"));
  return refused(
    file,
    "zip",
    shown.length === 0 ? "empty" : `holding ${shown.slice(0, 3).join(", ")}${shown.length > 3 ? ", …" : ""}`,
  );
}

function openXlsx(path: string, archive: ZipEntries, options: WorkbookOptions): OpenedSheet {
  const { sheets, strings, styles, from1904, sheet, notes } = xlsxParts(archive);
  const context = {
    ...{ strings: sharedStrings(strings), styles: cellStyles(styles) },
    ...{ from1904, count: new CellCount() },
  };
  const tabs = sheets.map(({ name, hidden, entry }): WorkbookTab => {
    const read = () => {
      const xml = sheet(entry);
      if (xml === undefined) throw new Error("the sheet is missing");
      const read = readXlsxSheet(xml, { ...context, tab: name });
      return { ...read, notes: [...read.notes, ...xlsxNotes(notes(entry))] };
    };
    return { name, hidden, read };
  });
  return openTabs(path, tabs, options);
}

function openOds(path: string, archive: ZipEntries, options: WorkbookOptions): OpenedSheet {
  if (/encryption-data/.test(archive.text("META-INF/manifest.xml") ?? "")) return refused(path, "protected workbook");
  const content = archive.text("content.xml");
  if (content === undefined) throw new Error("its content is missing");
  const tables = readOds(content);
  return openTabs(
    path,
    tables.map(({ name, hidden, rows, merges, notes }) => ({ name, hidden, read: () => ({ rows, merges, notes }) })),
    options,
  );
}

/** Opens a zip archive: an .xlsx or .ods workbook, or one error that says what else it is. */
export function openZip(source: SheetSource, options: WorkbookOptions): OpenedSheet {
  const file = source.path;
  if (source.size > largestArchive) return refused(file, "huge workbook");
  try {
    const archive = new ZipEntries(allBytes(source, largestArchive), largestParts);
    const { names } = archive;
    if (names.includes("encrypted-package")) return refused(file, "protected workbook");
    if (names.some((name) => /^(?:.*[/\\])?workbook\.xml$/i.test(name))) return openXlsx(file, archive, options);
    const mimetype = (archive.text("mimetype") ?? "").trim();
    if (mimetype.startsWith(odsMimetype) || (mimetype === "" && archive.has("content.xml")))
      return openOds(file, archive, options);
    if (mimetype.startsWith("application/vnd.oasis.opendocument"))
      return refused(file, mimetype.includes("presentation") ? "slides" : "text document");
    return otherArchive(file, names);
  } catch (error) {
    if (error instanceof WorkbookLimit) return refused(file, error.why, error.detail);
    return refused(file, "damaged workbook", messageOf(error));
  }
}

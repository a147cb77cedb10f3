import type { SheetSource } from "../../records/sheet.ts";
import { allBytes } from "../all-bytes.ts";
import { type NotASheet, notASheet } from "../not-a-sheet.ts";
import type { LooksLikeHeader, SheetRow } from "../shape/find-header.ts";
import { type OpenedSheet, tableOf } from "../shape/table-of.ts";
import { sheetIssue } from "../sheet-issue.ts";
import { readOds } from "./read-ods.ts";
import { readXlsx } from "./read-xlsx.ts";
import { isXlsxPart, xlsxSheets } from "./xlsx-extras.ts";
import { type ZipEntries, zipEntries } from "./zip-entries.ts";

interface WorkbookOptions {
  sheetName?: string;
  looksLikeHeader?: LooksLikeHeader;
}

/** Unpacked bytes of the parts that are read; beyond that the text would not fit in memory several times. */
const largestWorkbook = 400_000_000;
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

/** The sheet asked for, or the first one that is in sight; the index in the list, -1 where there is none of that name. */
function chosen(sheets: ReadonlyArray<{ name: string; hidden?: boolean }>, wanted: string | undefined): number {
  if (wanted === undefined)
    return Math.max(
      0,
      sheets.findIndex(({ hidden }) => !hidden),
    );
  const exact = sheets.findIndex(({ name }) => name === wanted);
  const key = wanted.trim().toLowerCase();
  return exact === -1 ? sheets.findIndex(({ name }) => name.trim().toLowerCase() === key) : exact;
}

function noSuchSheet(file: string, wanted: string, names: ReadonlyArray<string>): OpenedSheet {
  const issue = sheetIssue({
    file,
    rule: "no-such-sheet",
    severity: "error",
    raw: wanted,
    reason: "the workbook has no sheet of that name",
    expected: `one of: ${names.join(", ")}`,
    action: "Name one of its sheets, or leave the name out to read the first",
  });
  return { tables: [], issues: [issue], leftOut: [] };
}

function tableOfSheet(
  path: string,
  rows: ReadonlyArray<SheetRow>,
  names: ReadonlyArray<string>,
  index: number,
  { sheetName, looksLikeHeader }: WorkbookOptions,
): OpenedSheet {
  const file = `${path} > ${names[index]}`;
  const opened = tableOf(
    file,
    (visit) => {
      for (const { cells, row } of rows) if (visit([...cells], row, false) === false) return;
    },
    looksLikeHeader,
  );
  if (sheetName === undefined && names.length > 1) {
    const others = names.filter((_, other) => other !== index);
    opened.issues.unshift(
      sheetIssue({
        file: path,
        rule: "other-sheets",
        severity: "note",
        raw: others.join(", "),
        result: names[index]!,
        reason: "only the first sheet of the workbook was read",
        action: "Save the other sheets as files of their own if they belong to the book",
      }),
    );
  }
  return opened;
}

async function openXlsx(
  path: string,
  archive: ArrayBuffer,
  { bytes }: ZipEntries,
  options: WorkbookOptions,
): Promise<OpenedSheet> {
  const decoder = new TextDecoder();
  const part = (entry: string) => {
    const found = bytes[entry];
    return found === undefined ? undefined : decoder.decode(found);
  };
  const sheets = xlsxSheets(part);
  const names = sheets.map(({ name }) => name);
  const index = chosen(sheets, options.sheetName);
  const sheet = sheets[index];
  if (sheet === undefined) {
    if (options.sheetName !== undefined) return noSuchSheet(path, options.sheetName, names);
    throw new Error("it holds no sheet");
  }
  const xml = part(sheet.entry);
  if (xml === undefined) throw new Error("the sheet is missing");
  const rows = await readXlsx(archive, sheet.name, xml, part("xl/styles.xml"));
  return tableOfSheet(path, rows, names, index, options);
}

function openOds(path: string, { bytes }: ZipEntries, options: WorkbookOptions): OpenedSheet {
  const decoder = new TextDecoder();
  if (/:encryption-data|encryption-data/.test(decoder.decode(bytes["META-INF/manifest.xml"] ?? new Uint8Array(0)))) {
    return refused(path, "protected workbook");
  }
  const content = bytes["content.xml"];
  if (content === undefined) throw new Error("its content is missing");
  const tables = readOds(decoder.decode(content));
  const names = tables.map(({ name }) => name);
  const index = chosen(tables, options.sheetName);
  const table = tables[index];
  if (table === undefined) {
    if (options.sheetName !== undefined) return noSuchSheet(path, options.sheetName, names);
    throw new Error("it holds no sheet");
  }
  return tableOfSheet(path, table.rows, names, index, options);
}

/** Opens a zip archive: an .xlsx or .ods workbook, or one error that says what else it is. */
export async function openZip(source: SheetSource, options: WorkbookOptions): Promise<OpenedSheet> {
  const file = source.path;
  const archive = allBytes(source);
  const isOdsPart = (name: string) => /^(?:mimetype|content\.xml|META-INF\/manifest\.xml)$/.test(name);
  try {
    const entries = zipEntries(archive, (name) => isXlsxPart(name) || isOdsPart(name), largestWorkbook);
    const { names, size, bytes } = entries;
    const isXlsx = names.some((name) => /^xl\/workbook\.xml$/i.test(name));
    const mimetype = new TextDecoder().decode(bytes.mimetype ?? new Uint8Array(0)).trim();
    const isOds =
      !isXlsx && (mimetype.startsWith(odsMimetype) || (mimetype === "" && bytes["content.xml"] !== undefined));
    if (names.includes("encrypted-package")) return refused(file, "protected workbook");
    if (!isXlsx && mimetype.startsWith("application/vnd.oasis.opendocument") && !isOds) {
      return refused(file, mimetype.includes("presentation") ? "slides" : "text document");
    }
    if (!isXlsx && !isOds && size <= largestWorkbook) return otherArchive(file, names);
    if (size > largestWorkbook) return refused(file, "huge workbook");
    return isXlsx ? await openXlsx(file, archive.buffer, entries, options) : openOds(file, entries, options);
  } catch (error) {
    return refused(file, "damaged workbook", messageOf(error));
  }
}

import type { SheetSource } from "../../records/sheet.ts";
import { allBytes } from "../all-bytes.ts";
import { type NotASheet, notASheet } from "../not-a-sheet.ts";
import type { OpenedSheet } from "../shape/table-of.ts";
import { EndlessRow, readOds } from "./read-ods.ts";
import { readXlsxSheet, sharedStrings } from "./read-xlsx.ts";
import { openTabs, type WorkbookOptions, type WorkbookTab } from "./workbook-tabs.ts";
import { isXlsxPart, partName, xlsxParts } from "./xlsx-parts.ts";
import { cellStyles } from "./xlsx-styles.ts";
import { type ZipEntries, zipEntries } from "./zip-entries.ts";

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

function openXlsx(path: string, { bytes }: ZipEntries, options: WorkbookOptions): OpenedSheet {
  const { sheets, strings, styles, from1904, part } = xlsxParts(bytes);
  const context = { strings: sharedStrings(strings), styles: cellStyles(styles), from1904 };
  const tabs = sheets.map(({ name, hidden, entry }): WorkbookTab => {
    const read = () => {
      const xml = part(entry);
      if (xml === undefined) throw new Error("the sheet is missing");
      return readXlsxSheet(xml, context);
    };
    return { name, hidden, read };
  });
  return openTabs(path, tabs, options);
}

function openOds(path: string, { bytes }: ZipEntries, options: WorkbookOptions): OpenedSheet {
  const decoder = new TextDecoder();
  const byName = new Map(Object.entries(bytes).map(([name, content]) => [partName(name), content]));
  if (
    /:encryption-data|encryption-data/.test(decoder.decode(byName.get("meta-inf/manifest.xml") ?? new Uint8Array(0)))
  ) {
    return refused(path, "protected workbook");
  }
  const content = byName.get("content.xml");
  if (content === undefined) throw new Error("its content is missing");
  const tables = readOds(decoder.decode(content));
  return openTabs(
    path,
    tables.map(({ name, hidden, rows, merges }) => ({ name, hidden, read: () => ({ rows, merges }) })),
    options,
  );
}

/** Opens a zip archive: an .xlsx or .ods workbook, or one error that says what else it is. */
export function openZip(source: SheetSource, options: WorkbookOptions): OpenedSheet {
  const file = source.path;
  const archive = allBytes(source);
  const isOdsPart = (name: string) => /^(?:mimetype|content\.xml|meta-inf\/manifest\.xml)$/.test(partName(name));
  try {
    const entries = zipEntries(archive, (name) => isXlsxPart(name) || isOdsPart(name), largestWorkbook);
    const { names, size, bytes } = entries;
    const isXlsx = names.some((name) => /^(?:.*\/)?workbook\.xml$/.test(partName(name)));
    const mimetype = new TextDecoder().decode(bytes.mimetype ?? new Uint8Array(0)).trim();
    const isOds =
      !isXlsx && (mimetype.startsWith(odsMimetype) || (mimetype === "" && bytes["content.xml"] !== undefined));
    if (names.includes("encrypted-package")) return refused(file, "protected workbook");
    if (!isXlsx && mimetype.startsWith("application/vnd.oasis.opendocument") && !isOds) {
      return refused(file, mimetype.includes("presentation") ? "slides" : "text document");
    }
    if (!isXlsx && !isOds && size <= largestWorkbook) return otherArchive(file, names);
    if (size > largestWorkbook) return refused(file, "huge workbook");
    return isXlsx ? openXlsx(file, entries, options) : openOds(file, entries, options);
  } catch (error) {
    return refused(file, error instanceof EndlessRow ? "endless row" : "damaged workbook", messageOf(error));
  }
}
